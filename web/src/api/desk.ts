// Questions to the desk's server, one function each. All throw `Refused` when the server says
// no, and `Unreached` when it does not answer.

import { token } from './token';
import type {
  ArtFile,
  BoxModel,
  Conflict,
  EditAnswer,
  EditRequest,
  ElementCut,
  Finding,
  FontFamily,
  LayoutView,
  LikelyCuts,
  MakingInfo,
  MatAnswer,
  MeasuredPrinter,
  MeasuringSheet,
  Pack,
  PrinterAbout,
  PrinterKeep,
  PrinterKept,
  PrinterReadings,
  Printers,
  PrinterScans,
  Problem,
  RulesInfo,
  ScanTaken,
  Schema,
  ShareInfo,
  State,
  UndoAnswer,
} from './types';

export class Unreached extends Error {}

export class Refused extends Error {
  readonly status: number;
  readonly hint: string;
  readonly findings: Finding[];
  readonly conflicts: Conflict[];
  constructor(
    status: number,
    answer: Partial<Problem> & {
      findings?: Finding[];
      conflicts?: Conflict[];
    },
  ) {
    super(answer.message ?? `the desk answered ${status}`);
    this.status = status;
    this.hint = answer.hint ?? '';
    this.findings = answer.findings ?? [];
    this.conflicts = answer.conflicts ?? [];
  }
}

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  const headers = new Headers(init.headers);
  headers.set('X-Quoin-Token', token);
  let response: Response;
  try {
    response = await fetch(path, { ...init, headers, cache: 'no-store' });
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === 'AbortError') throw cause;
    throw new Unreached('the desk does not answer', { cause });
  }
  if (response.ok) return response;
  const answer = await response.json().catch(() => ({}));
  throw new Refused(response.status, answer);
}

export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  return (await ask(path, signal ? { signal } : {})).json();
}

export async function post<T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> {
  const response = await ask(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(body),
    signal: signal ?? null,
  });
  return response.json();
}

async function send_file<T>(path: string, file: Blob): Promise<T> {
  const headers = { 'Content-Type': file.type || 'application/octet-stream' };
  return (await ask(path, { method: 'POST', headers, body: file })).json();
}

const part = encodeURIComponent;

export const fetch_state = () => get<State>('/api/state');
export const fetch_layout = (file: string, card: string, signal?: AbortSignal) =>
  get<LayoutView>(`/api/layout?file=${part(file)}&card=${part(card)}`, signal);
export const fetch_schema = () => get<Schema>('/api/schema');
export const fetch_fonts = () => get<FontFamily[]>('/api/fonts');
export const fetch_art = () => get<ArtFile[]>('/api/art');
export const fetch_box_model = () => get<BoxModel>('/api/box/model.json');
export const fetch_making = () => get<MakingInfo>('/api/making');
export const fetch_mat = (signal?: AbortSignal) => get<MatAnswer>('/api/mat', signal);
export const begin_mat = () => post<EditAnswer>('/api/mat/begin', {});
export const fetch_rules = (signal?: AbortSignal) => get<RulesInfo>('/api/rules', signal);
export const begin_rules = () => post<EditAnswer>('/api/rules/begin', {});
export const fetch_likely_cuts = (key: string) =>
  get<LikelyCuts>(`/api/likely-cuts?key=${part(key)}`);
export const fetch_pack = () => get<Pack>('/api/pack');
export const fetch_element_cuts = (file: string, element: string) =>
  get<ElementCut[]>(`/api/element-strip?file=${part(file)}&element=${part(element)}`);

export const send_edit = (edit: EditRequest) => post<EditAnswer>('/api/edit', edit);
export const undo = () => post<UndoAnswer>('/api/undo', {});
export const redo = () => post<UndoAnswer>('/api/redo', {});
export const settle_conflict = (id: string, keep: 'mine' | 'theirs') =>
  post<EditAnswer>('/api/conflict', { id, keep });
export const start_making = (parts: string[], decks: number, only: string[]) =>
  post<{ id: string }>('/api/make', { parts, decks, only });
export const fetch_share = () => get<ShareInfo>('/api/share');
export const start_sharing = (since: string, without: string[], asked: string[]) =>
  post<{ id: string }>('/api/share', { since, without, asked });
export const begin_sources = () => post<unknown>('/api/share/list', {});
export const stop_work = (id: string) => post<unknown>('/api/stop', { id });
export const open_outside = (name: string) => post<unknown>('/api/open', { name });
export const upload_art = (file: File) =>
  send_file<{ file: string }>(`/api/upload?to=${part(`art/${file.name}`)}`, file);
export const upload_first_picture = (file: File) =>
  send_file<unknown>(`/api/new-picture?name=${part(file.name)}`, file);
export const start_game = (from: 'starter' | 'pictures', title: string, size: string) =>
  post<unknown>('/api/new', { from, title, size });

export const fetch_printers = () => get<Printers>('/api/printers');
export const fetch_measuring_sheet = (about: PrinterAbout) =>
  get<MeasuringSheet>(
    `/api/printer/sheet?paper=${part(about.paper)}&held=${about.held}&flip=${about.flip}`,
  );
export const measure_by_eye = (read: PrinterReadings) =>
  post<MeasuredPrinter>('/api/printer/read', read);
export const measure_by_scans = (scans: PrinterScans) =>
  post<MeasuredPrinter>('/api/printer/scans', scans);
export const upload_scan = (file: File) =>
  send_file<ScanTaken>(`/api/printer/scan?name=${part(file.name)}`, file);
export const keep_printer = (keep: PrinterKeep) => post<PrinterKept>('/api/printer/keep', keep);

/** A file of the pack as bytes, for saving. */
export async function fetch_pack_file(name: string): Promise<Blob> {
  return (await ask(`/api/pack/file?name=${part(name)}`)).blob();
}
