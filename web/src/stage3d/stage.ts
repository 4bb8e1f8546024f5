// The folded box, drawn with three.js. Millimetres; the model's y is down and its z runs away from
// the eye, so all of it is turned half round x once. Drawn only when something changed.

import {
  AmbientLight,
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Group,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  OrthographicCamera,
  PerspectiveCamera,
  Scene,
  SRGBColorSpace,
  TextureLoader,
  Vector3,
  WebGLRenderer,
  type Material,
  type Texture,
} from 'three';
import type { BoxModel, BoxPanel } from '../api/types';
import { between, carried, deck_away, frames_about, SLIDE } from './poses';

export interface StageWishes {
  canvas: HTMLCanvasElement;
  model: BoxModel;
  /** of the box: "tuck", "lid", "sleeve" */
  kind: string;
  /** Addresses of pictures, "" for none. */
  texture: (part: number) => string;
  deck_front: string;
  deck_back: string;
  /** Pixels per millimetre for a view at true scale; left out, the box fills the view. */
  true_scale?: number;
  ondrawn?: () => void;
}

const PAPER = new Color('#efe5cf');
const EDGE = new Color('#d6c6a2');
const NEAREST = 0.25;
const FURTHEST = 3;

export class Stage {
  readonly #wishes: StageWishes;
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #root = new Group();
  readonly #panels: Mesh[][] = [];
  readonly #deck: Mesh | null;
  readonly #perspective = new PerspectiveCamera(26, 1, 1, 20000);
  readonly #straight = new OrthographicCamera();
  readonly #loaded: Texture[] = [];
  readonly #holder: number;
  #progress = 0;
  #turn = { around: -0.55, above: 0.35, near: 1 };
  #size = { width: 300, height: 300 };
  #waiting = 0;

  /** Throws when the browser has no WebGL. */
  constructor(wishes: StageWishes) {
    this.#wishes = wishes;
    const looks = { antialias: true, alpha: true, preserveDrawingBuffer: true };
    const context = wishes.canvas.getContext('webgl2', looks) as WebGLRenderingContext | null;
    if (!context) throw new Error('This browser draws no models.');
    this.#renderer = new WebGLRenderer({ canvas: wishes.canvas, context, ...looks });
    this.#root.rotation.x = Math.PI;
    this.#scene.add(this.#root, new AmbientLight(0xffffff, 1.9));
    const lamp = new DirectionalLight(0xfff4e0, 1.6);
    lamp.position.set(-0.6, 1, 1.1);
    this.#scene.add(lamp);
    for (const [index, part] of wishes.model.parts.entries()) {
      const materials = this.#materials(wishes.texture(index));
      this.#panels.push(part.panels.map((panel) => this.#panel(panel, materials)));
    }
    this.#holder = wishes.model.parts.findIndex((part) => part.name === 'tray');
    this.#deck = this.#make_deck();
  }

  #materials(address: string): Material[] {
    const printed = new MeshLambertMaterial({ color: PAPER, side: DoubleSide });
    if (address !== '') {
      this.#load(address, (texture) => {
        texture.flipY = false;
        printed.map = texture;
        printed.color.set(0xffffff);
        printed.needsUpdate = true;
      });
    }
    return [
      printed,
      new MeshLambertMaterial({ color: PAPER, side: DoubleSide }),
      new MeshLambertMaterial({ color: EDGE, side: DoubleSide }),
    ];
  }

  #load(address: string, use: (texture: Texture) => void): void {
    new TextureLoader().load(address, (texture) => {
      texture.colorSpace = SRGBColorSpace;
      texture.anisotropy = this.#renderer.capabilities.getMaxAnisotropy();
      this.#loaded.push(texture);
      use(texture);
      this.draw_soon();
    });
  }

  #panel(panel: BoxPanel, materials: Material[]): Mesh {
    const shape = new BufferGeometry();
    shape.setAttribute('position', new BufferAttribute(new Float32Array(panel.positions), 3));
    shape.setAttribute('normal', new BufferAttribute(new Float32Array(panel.normals), 3));
    shape.setAttribute('uv', new BufferAttribute(new Float32Array(panel.uvs), 2));
    shape.setIndex([...panel.printed, ...panel.inside, ...panel.edge]);
    let start = 0;
    for (const [index, list] of [panel.printed, panel.inside, panel.edge].entries()) {
      shape.addGroup(start, list.length, index);
      start += list.length;
    }
    shape.computeBoundingBox();
    const mesh = new Mesh(shape, materials);
    mesh.matrixAutoUpdate = false;
    this.#root.add(mesh);
    return mesh;
  }

  #make_deck(): Mesh | null {
    const deck = this.#wishes.model.deck;
    if (!deck) return null;
    const [width = 0, height = 0, depth = 0] = deck.size;
    const side = () => new MeshLambertMaterial({ color: '#f6f0e2' });
    // A BoxGeometry's faces: +x, -x, +y, -y, +z, -z; the eye is on the side of -z.
    const [front, back] = [side(), side()];
    const materials = [side(), side(), side(), side(), back, front];
    const picture = (address: string, material: MeshLambertMaterial) => {
      if (address === '') return;
      this.#load(address, (texture) => {
        texture.center.set(0.5, 0.5);
        texture.rotation = Math.PI;
        material.map = texture;
        material.color.set(0xffffff);
        material.needsUpdate = true;
      });
    };
    picture(this.#wishes.deck_front, front);
    picture(this.#wishes.deck_back, back);
    const mesh = new Mesh(new BoxGeometry(width, height, depth), materials);
    this.#root.add(mesh);
    return mesh;
  }

  /** Folds so far: 0 is the flat net, `steps.length` the closed box. */
  set_progress(progress: number): void {
    this.#progress = progress;
    const about = frames_about(this.#wishes.model.frames, progress);
    if (!about) return;
    const row = new Matrix4();
    for (const [part, meshes] of this.#panels.entries()) {
      for (const [index, mesh] of meshes.entries()) {
        const before = about.before.poses[part]?.[index];
        const after = about.after.poses[part]?.[index];
        if (!before || !after) continue;
        const [a, b, c, d, e, f, g, h, i, j, k, l] = between(before, after, about.share);
        row.set(a!, b!, c!, d!, e!, f!, g!, h!, i!, j!, k!, l!, 0, 0, 0, 1);
        mesh.matrix.copy(row);
        mesh.matrixWorldNeedsUpdate = true;
      }
    }
    this.#place_deck();
    this.draw_soon();
  }

  #place_deck(): void {
    const { deck, deckGoesIn, frames } = this.#wishes.model;
    if (!this.#deck || !deck) return;
    const share = Math.min(1, Math.max(0, (this.#progress - deckGoesIn) / SLIDE));
    const away = deck_away(this.#wishes.kind, deck.size, share);
    const ride = this.#holder < 0 ? [0, 0, 0] : carried(frames, this.#holder, this.#progress);
    const middle = (axis: number) =>
      (deck.at[axis] ?? 0) + (deck.size[axis] ?? 0) / 2 + (away[axis] ?? 0) + (ride[axis] ?? 0);
    this.#deck.visible = this.#progress > deckGoesIn;
    this.#deck.position.set(middle(0), middle(1), middle(2));
  }

  /** Radians about the upright axis and up over the table; the eye stays above the ground. */
  orbit(around: number, above: number): void {
    this.#turn.around += around;
    this.#turn.above = Math.min(1.5, Math.max(-1.2, this.#turn.above + above));
    this.draw_soon();
  }
  look_from(around: number, above: number): void {
    this.#turn = { around, above, near: 1 };
    this.draw_soon();
  }
  /** Only for a stage that began at true scale: other pixels per millimetre. */
  set_true_scale(scale: number): void {
    if (this.#wishes.true_scale === undefined) return;
    this.#wishes.true_scale = scale;
    this.draw_soon();
  }
  zoom(by: number): void {
    this.#turn.near = Math.min(FURTHEST, Math.max(NEAREST, this.#turn.near * by));
    this.draw_soon();
  }

  /** In pixels of the page. */
  resize(width: number, height: number): void {
    if (width < 1 || height < 1) return;
    this.#size = { width, height };
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.#renderer.setSize(width, height, false);
    this.draw_soon();
  }

  /** The place on the page, in pixels from the canvas's corner, of a point of the folded model. */
  project(point: [number, number, number]): { x: number; y: number } {
    const seen = new Vector3(...point).applyMatrix4(this.#root.matrixWorld).project(this.#camera());
    return {
      x: ((seen.x + 1) / 2) * this.#size.width,
      y: ((1 - seen.y) / 2) * this.#size.height,
    };
  }

  draw_soon(): void {
    if (this.#waiting !== 0) return;
    this.#waiting = requestAnimationFrame(() => {
      this.#waiting = 0;
      this.#draw();
    });
  }

  #camera() {
    return this.#wishes.true_scale === undefined ? this.#perspective : this.#straight;
  }

  #draw(): void {
    this.#root.updateMatrixWorld(true);
    const { middle, reach } = this.#extent();
    const { around, above, near } = this.#turn;
    const ahead = new Vector3(
      Math.sin(around) * Math.cos(above),
      Math.sin(above),
      Math.cos(around) * Math.cos(above),
    );
    const camera = this.#camera();
    const aspect = this.#size.width / this.#size.height;
    let away = reach * 4;
    if (camera instanceof PerspectiveCamera) {
      camera.aspect = aspect;
      const half = (camera.fov * Math.PI) / 360;
      away = (reach / Math.tan(half) / Math.min(1, aspect)) * 1.06 * near;
    } else {
      const scale = this.#wishes.true_scale ?? 1;
      const [wide, high] = [this.#size.width / scale / 2, this.#size.height / scale / 2];
      Object.assign(camera, { left: -wide, right: wide, top: high, bottom: -high, far: 10000 });
    }
    camera.position.copy(middle).addScaledVector(ahead, away);
    camera.lookAt(middle);
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    this.#renderer.render(this.#scene, camera);
    this.#wishes.ondrawn?.();
  }

  /** The middle of what is to be seen, and how far it reaches from there. */
  #extent(): { middle: Vector3; reach: number } {
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = new Vector3(-Infinity, -Infinity, -Infinity);
    for (const mesh of this.#panels.flat()) {
      const box = mesh.geometry.boundingBox?.clone().applyMatrix4(mesh.matrixWorld);
      if (!box) continue;
      low.min(box.min);
      high.max(box.max);
    }
    const middle = low.clone().add(high).multiplyScalar(0.5);
    return { middle, reach: low.distanceTo(high) / 2 };
  }

  dispose(): void {
    cancelAnimationFrame(this.#waiting);
    for (const texture of this.#loaded) texture.dispose();
    for (const mesh of this.#panels.flat()) mesh.geometry.dispose();
    this.#renderer.dispose();
  }
}
