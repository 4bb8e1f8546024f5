// What a maker has told of a printer so far: kept in this tab, so that going elsewhere, back and
// forth, or loading the page anew loses no reading. Pictures stay as long as the page does.

import {
  fetch_measuring_sheet,
  fetch_printers,
  measure_by_eye,
  measure_by_scans,
  Refused,
  upload_scan,
} from '../../api/desk';
import type {
  Finding,
  MeasuredPrinter,
  MeasuringSheet,
  PrinterAbout,
  Printers,
  SheetReadings,
} from '../../api/types';
import { desk } from '../../state/desk.svelte';

export const steps = [
  { name: 'about', words: 'The printer' },
  { name: 'print', words: 'Print the sheet' },
  { name: 'read', words: 'Read it' },
  { name: 'found', words: 'What was found' },
  { name: 'keep', words: 'Keep it' },
] as const;
export type Step = (typeof steps)[number]['name'];
export type Way = 'eye' | 'scans';
export type Kind = Printers['kind'];
export type Side = 'front' | 'back';
export const sides: Side[] = ['front', 'back'];

/** The desk takes no more at once; it says so in bytes, the page in what to do about it. */
const LARGEST_SCAN = 64_000_000;
const MOST_SHEETS = { eye: 20, scans: 10 };

/** A picture of one side, as it was chosen. */
export interface Picture {
  file: File;
  address: string; // of its bytes, for showing
  scan: string; // the desk's name for it, or none
  fault: string;
}

interface Told {
  about: PrinterAbout;
  kind: Kind;
  way: Way;
  sheets: SheetReadings[];
}
const KEY = 'quoin.printer';

const blank = (): SheetReadings => ({
  letter: '',
  scales: Array(8).fill(''),
  bar150: '',
  bar200: '',
});
const nothing = (): Told => ({
  about: {
    name: '',
    tray: '',
    stock: '',
    paper: '',
    held: 'upright',
    backs: 'printer',
    flip: 'long-edge',
  },
  kind: 'laser',
  way: 'eye',
  sheets: [blank(), blank(), blank()],
});

function read_told(): Told {
  try {
    return { ...nothing(), ...JSON.parse(sessionStorage.getItem(KEY) ?? '{}') };
  } catch {
    return nothing();
  }
}

class PrinterWork {
  told = $state<Told>(read_told());
  pictures = $state.raw<Record<Side, Picture | null>[]>([
    { front: null, back: null },
    { front: null, back: null },
    { front: null, back: null },
  ]);
  printers = $state.raw<Printers | null>(null);
  sheet = $state.raw<MeasuringSheet | null>(null);
  found = $state.raw<MeasuredPrinter | null>(null);
  /** What was wrong with what was told last. Those of a field go when the field is changed. */
  faults = $state.raw<Finding[]>([]);
  measuring = $state(false);

  constructor() {
    $effect.root(() => {
      $effect(() => sessionStorage.setItem(KEY, JSON.stringify(this.told)));
    });
  }

  /** Fetches what is known; what nobody has told yet follows from how the game is printed. */
  async refresh(): Promise<void> {
    try {
      const now = await fetch_printers();
      this.printers = now;
      if (this.told.about.paper !== '') return;
      const { paper, held, backs, flip } = now;
      const fits = now.papers.includes(paper);
      Object.assign(this.told.about, { paper: fits ? paper : 'A4', held, backs, flip });
      this.told.kind = now.kind;
    } catch (problem) {
      desk.tell(problem);
    }
  }

  async fetch_sheet(about: PrinterAbout): Promise<void> {
    if (about.paper === '') return;
    try {
      this.sheet = await fetch_measuring_sheet(about);
    } catch (problem) {
      desk.tell(problem);
    }
  }

  begin_anew(): void {
    const { about, kind, way } = this.told;
    this.told = { ...nothing(), about: { ...about, name: '' }, kind, way };
    this.pictures = this.pictures.map(() => ({ front: null, back: null })).slice(0, 3);
    this.found = null;
    this.faults = [];
  }

  /** What was found no longer says anything of what is told now. */
  changed(): void {
    this.found = null;
  }

  get room_for_more(): boolean {
    return this.told.sheets.length < MOST_SHEETS[this.told.way];
  }
  add_sheet(): void {
    this.told.sheets.push(blank());
    this.pictures = [...this.pictures, { front: null, back: null }];
    this.changed();
  }
  remove_sheet(index: number): void {
    this.told.sheets.splice(index, 1);
    this.pictures = this.pictures.filter((_, at) => at !== index);
    this.faults = this.faults.filter((fault) => sheet_of(fault) < index);
    this.changed();
  }

  /** Faults of a sheet, at what of it: "letter", "scale 3", "front". */
  faults_at(index: number, element: string): Finding[] {
    return this.faults.filter((one) => sheet_of(one) === index && one.element === element);
  }
  forget_faults_at(index: number, element: string): void {
    const together = /^scale \d$/.test(element)
      ? Number(element.at(-1)) % 2 === 1
        ? 'scales across'
        : 'scales down'
      : element;
    this.faults = this.faults.filter(
      (one) => sheet_of(one) !== index || (one.element !== element && one.element !== together),
    );
    this.changed();
  }
  /** Of no sheet: of the measurement as a whole. */
  get faults_of_all(): Finding[] {
    return this.faults.filter((one) => sheet_of(one) < 0);
  }

  #put(index: number, side: Side, picture: Picture | null): void {
    this.pictures = this.pictures.map((pair, at) =>
      at === index ? { ...pair, [side]: picture } : pair,
    );
  }
  async choose_picture(index: number, side: Side, file: File): Promise<void> {
    this.drop_picture(index, side);
    const picture: Picture = { file, address: URL.createObjectURL(file), scan: '', fault: '' };
    if (file.size > LARGEST_SCAN) {
      picture.fault = 'The picture is too large: scan at 300 ppi, or save it as PNG or JPEG.';
    }
    this.#put(index, side, picture);
    if (picture.fault === '') await this.#upload(index, side, picture);
  }
  drop_picture(index: number, side: Side): void {
    const earlier = this.pictures[index]?.[side];
    if (earlier) URL.revokeObjectURL(earlier.address);
    this.#put(index, side, null);
    this.forget_faults_at(index, side);
  }
  /** A new value each time, since those that show it look for one. */
  async #upload(index: number, side: Side, picture: Picture): Promise<void> {
    let after = picture;
    try {
      after = { ...picture, scan: (await upload_scan(picture.file)).scan, fault: '' };
    } catch (problem) {
      if (!(problem instanceof Refused)) return desk.tell(problem);
      after = { ...picture, scan: '', fault: `${problem.message}; ${problem.hint}` };
    }
    if (this.pictures[index]?.[side]?.address === picture.address) this.#put(index, side, after);
  }

  /** Sheets of which something was read or chosen: an empty one was only offered. */
  get used_sheets(): number[] {
    return this.told.sheets.flatMap((sheet, index) => {
      const pair = this.pictures[index];
      const used =
        this.told.way === 'eye'
          ? sheet.letter !== '' || sheet.scales.some((one) => one.trim() !== '')
          : pair?.front || pair?.back;
      return used ? [index] : [];
    });
  }
  get ready(): boolean {
    if (this.used_sheets.length === 0 || this.measuring) return false;
    if (this.told.way === 'eye') return true;
    return this.used_sheets.every((index) => {
      const pair = this.pictures[index];
      return pair?.front && pair.back && !pair.front.fault && !pair.back.fault;
    });
  }

  /** Whether something was found; what was wrong is in `faults`. */
  async measure(): Promise<boolean> {
    this.measuring = true;
    this.faults = [];
    const used = this.used_sheets;
    try {
      this.found = await this.#measured(used);
      return true;
    } catch (problem) {
      const told = problem instanceof Refused && problem.findings.length > 0;
      if (told) this.faults = problem.findings.map((one) => at_sheet(one, used));
      else desk.tell(problem);
      return false;
    } finally {
      this.measuring = false;
    }
  }
  async #measured(used: number[]): Promise<MeasuredPrinter> {
    const about = this.told.about;
    const sheets = used.map((index) => this.told.sheets[index] ?? blank());
    if (this.told.way === 'eye') {
      return measure_by_eye({ about, sheets: sheets.map(trimmed) });
    }
    try {
      return await this.#measured_by_scans(used);
    } catch (problem) {
      // Another run of the desk, or many pictures since: it gets them once more.
      if (!(problem instanceof Refused && problem.status === 410)) throw problem;
      for (const index of used) {
        for (const side of sides) {
          const picture = this.pictures[index]?.[side];
          if (picture) await this.#upload(index, side, picture);
        }
      }
      return this.#measured_by_scans(used);
    }
  }
  #measured_by_scans(used: number[]): Promise<MeasuredPrinter> {
    const sheets = used.map((index) => {
      const { bar150, bar200 } = trimmed(this.told.sheets[index] ?? blank());
      const pair = this.pictures[index];
      return { front: pair?.front?.scan ?? '', back: pair?.back?.scan ?? '', bar150, bar200 };
    });
    return measure_by_scans({ about: this.told.about, sheets });
  }
}

const trimmed = (sheet: SheetReadings): SheetReadings => ({
  letter: sheet.letter,
  scales: sheet.scales.map((one) => one.trim()),
  bar150: sheet.bar150.trim(),
  bar200: sheet.bar200.trim(),
});

/** Its place among the sheets, from 0; -1 for none. */
export function sheet_of(fault: Finding): number {
  return Number(/^sheet (\d+)$/.exec(fault.piece)?.[1] ?? 0) - 1;
}
/** The desk counts the sheets that it was sent; the page those that it shows. */
function at_sheet(fault: Finding, used: number[]): Finding {
  const index = used[sheet_of(fault)];
  return index === undefined ? fault : { ...fault, piece: `sheet ${index + 1}` };
}

export const work = new PrinterWork();
