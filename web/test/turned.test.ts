// The arithmetic of turned boxes, against figures worked out by hand.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bounds, guide_lines, MOVE, moved_turned, snap_turned } from '../src/editor/snap.ts';
import { carried, deck_away } from '../src/stage3d/poses.ts';

const box = { x: 10, y: 20, width: 8, height: 4 };
const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

test('a turned box goes with the pointer', () => {
  assert.deepEqual(moved_turned(box, 90, MOVE, 3, 1), { ...box, x: 13, y: 21 });
});

test('the right edge of a box turned a quarter is its lowest, and pulled down it lengthens', () => {
  const pulled = moved_turned(box, 90, { ...MOVE, right: true }, 0, 2);
  near(pulled.width, 10);
  near(pulled.height, 4);
  // The middle was 14, 22; the top edge on the card stays at 18, so the middle goes down by 1.
  near(pulled.x + pulled.width / 2, 14);
  near(pulled.y + pulled.height / 2, 23);
});

test('a box turned a quarter covers as much upright as it did lying', () => {
  const around = bounds(box, 90);
  near(around.width, 4);
  near(around.height, 8);
  near(around.x, 12);
  near(around.y, 18);
});

test('a turned box holds on to the safe area by what it covers', () => {
  const card = { width: 63.5, height: 88.9, corner: 3.5, bleed: 3, safe: 3, sizeName: '' };
  const lines = guide_lines(card, []);
  const held = snap_turned({ ...box, x: 1.2 }, 90, MOVE, { x: lines.x, y: [] }, 0.5);
  near(held.box.x, 1); // upright it begins 2 mm further right: at the safe area's 3 mm
});

test('the deck comes from above a tuck carton, and from before a base or a tray', () => {
  assert.deepEqual(deck_away('tuck', [63.5, 88.9, 21], 1), [0, -0, 0]);
  assert.ok((deck_away('tuck', [63.5, 88.9, 21], 0)[1] ?? 0) < -88.9);
  for (const kind of ['lid', 'sleeve']) {
    const [x, y, z] = deck_away(kind, [63.5, 88.9, 21], 0);
    assert.equal(x, 0);
    assert.equal(y, 0);
    assert.ok((z ?? 0) < -21);
  }
});

test('the deck rides with its tray', () => {
  const at = (y: number) => [[[1, 0, 0, 0, 0, 1, 0, y, 0, 0, 1, 5]]];
  const frames = [
    { progress: 0, poses: at(100) },
    { progress: 1, poses: at(0) },
  ];
  assert.deepEqual(carried(frames, 0, 0.25), [0, 75, 0]);
  assert.deepEqual(carried(frames, 0, 1), [0, 0, 0]);
});
