// Made from the table in src/desk/api/types.cpp by `./run accept`.
// What the desk's server and this page agree on. Lengths are millimetres, colours "#rrggbb" or
// "#rrggbbaa".
//
// GET /api/state -> State: the game as it stands
// GET /api/events -> text/event-stream: `state` StateEvent, `work` Work
// GET /api/picture/KEY.png -> image/png: w, stamp, bleed=1: a face
// GET /api/drawing/KEY.svg -> image/svg+xml: a face to save
// GET /api/sheet/N/SIDE.png -> image/png: w; front, back, light or uncorrected
// GET /api/box/net/N.png -> image/png: w
// GET /api/box/texture/N.png -> image/png: what is printed on a net
// GET /api/box/model.json -> BoxModel: the folding
// GET /api/layout -> LayoutView: file, card
// GET /api/element-strip -> ElementCut[]: file, element: the same on all cards
// GET /api/schema -> Schema: every key of the maker's files
// GET /api/fonts -> FontFamily[]
// GET /api/font-sample/FAMILY.png -> image/png
// GET /api/art -> ArtFile[]: pictures in the game folder
// GET /api/pack -> Pack: what was made last
// GET /api/pack/file -> application/octet-stream: name
// POST /api/edit EditRequest -> EditAnswer: 409 ConflictAnswer, 422 FindingAnswer
// POST /api/undo -> UndoAnswer
// POST /api/redo -> UndoAnswer
// POST /api/conflict ConflictChoice -> EditAnswer
// POST /api/upload -> UploadAnswer: to=art/NAME; the picture is the body
// POST /api/make MakeRequest -> WorkId
// POST /api/stop WorkId -> Done
// POST /api/open OpenRequest -> Done: shows it with the system's own program
// POST /api/new-picture -> UploadAnswer: name; for a new game
// POST /api/new NewRequest -> Done: 422 FindingAnswer
// GET /api/making -> MakingInfo: waits for the checks
// GET /api/likely-cuts -> LikelyCuts: key: a face; 404 Problem says why not
// GET /api/cutting/KIND/STEP.svg -> image/svg+xml: w, h: pixels; ink=paper or dark: a step's picture
// GET /api/cutting/corner.svg -> image/svg+xml: the same: a corner in its punch
// GET /api/mat -> MatAnswer
// GET /api/mat/picture.png -> image/png: w; with its bleed
// POST /api/mat/begin -> EditAnswer: writes [mat] and its layout; 409 when there is one
// GET /api/rules -> RulesInfo
// GET /api/rules/page/N.png -> image/png: w: pixels; r: the revision it is for
// GET /api/rules/step/N.png -> image/png: the same: a step of the folding
// GET /api/rules/sheet/SIDE.png -> image/png: the same: front or back of the first sheet
// POST /api/rules/begin -> EditAnswer: writes a text to start from
// GET /api/printers -> Printers
// GET /api/printer/sheet -> MeasuringSheet: paper, held, flip
// GET /api/printer/sheet.pdf -> application/pdf: paper, held, flip, backs, sheets; save=1
// POST /api/printer/scan -> ScanTaken: name; the picture is the body
// POST /api/printer/read PrinterReadings -> MeasuredPrinter: 422 FindingAnswer
// POST /api/printer/scans PrinterScans -> MeasuredPrinter: 422 FindingAnswer; 410: a picture is here no more
// POST /api/printer/keep PrinterKeep -> PrinterKept: 409 Problem
// GET /api/share -> ShareInfo: asks of every file whether it may be given on
// POST /api/share ShareRequest -> WorkId: begins; 409 while something is made
// POST /api/share/list -> Done: begins art/sources.csv, with rows to fill in
// GET /api/share/page.html -> text/html: the page of the share, to be looked at
// GET /api/pictures -> PicturesInfo: every picture, and how it prints
// GET /api/pictures/original.png -> image/png: file, stamp, w; w=0: all pixels
// POST /api/pictures/redraw RedrawRequest -> Redrawing: 409, 422 Problem
// GET /api/pictures/redrawn.svg -> image/svg+xml: id; 410 when it is gone
// GET /api/pictures/difference.png -> image/png: id
// POST /api/pictures/corners PictureAsked -> FoundCards: of cards in a photograph
// POST /api/pictures/straighten StraightenRequest -> MadePictures
// POST /api/pictures/cut-out CutOutRequest -> MadePictures
// POST /api/pictures/pull PullRequest -> MadePictures: to the game's colours
// GET /api/pictures/made.png -> image/png: id, n from 0, w
// POST /api/pictures/accept AcceptRequest -> Accepted: writes it beside the picture
// POST /api/pictures/palette PaletteRequest -> PicturesPalette

/** How bad it is: what is an error is not written. */
export type Severity = 'error' | 'warning' | 'note';

/** A stretch of one line of a file of the game; lines and columns from 1. */
export interface Place {
  file: string;
  /** 0: the file as a whole */
  line: number;
  column: number;
  /** in letters; 0: not known */
  length: number;
}

/** One thing that would go wrong on paper. */
export interface Finding {
  /** `art.low-resolution` */
  id: string;
  severity: Severity;
  message: string;
  details: string[];
  hints: string[];
  place: Place | null;
  /** a card's id, `back of main`, or none */
  piece: string;
  element: string;
  title: string;
  onTheTable: string;
  remedy: string;
  /** the line of the file */
  source: string;
}

export interface CardFormat {
  width: number;
  height: number;
  corner: number;
  bleed: number;
  safe: number;
  /** as the maker wrote it */
  sizeName: string;
}

export interface Suit {
  id: string;
  name: string;
  colour: string | null;
}

/** A colour that the maker named. */
export interface GameColour {
  name: string;
  /** null: it is no colour yet */
  value: string | null;
  /** of its value */
  place: Place | null;
}

/** A row of the card list. */
export interface Card {
  id: string;
  /** its place in the list, from 0 */
  row: number;
  copies: number;
  suit: string;
  deck: string;
  /** as State.columns */
  cells: string[];
  /** the key of its drawing, or none */
  front: string;
  back: string;
  /** the file */
  layout: string;
}

/** A drawn face. */
export interface Drawing {
  /** `cards/W-07`, `backs/main` */
  key: string;
  /** changes when its looks do */
  stamp: string;
}

export interface Deck {
  id: string;
  name: string;
  /** with their copies */
  cards: number;
  /** the key of its first back, or none */
  back: string;
}

export interface Totals {
  rows: number;
  cards: number;
  pieces: number;
  backs: number;
  sheets: number;
}

export interface Trim {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface SheetInfo {
  index: number;
  hasBack: boolean;
  /** ids, cell by cell; empty cells have none */
  cards: string[];
}

/** The sheets of one deck. */
export interface SheetsInfo {
  width: number;
  height: number;
  paper: string;
  columns: number;
  rows: number;
  turned: boolean;
  flip: 'long-edge' | 'short-edge';
  backs: 'printer' | 'by-hand' | 'fold' | 'none';
  /** what was chosen, and why */
  choices: string[];
  trims: Trim[];
  sheets: SheetInfo[];
}

export interface Range {
  low: number;
  high: number;
}

export interface Solid {
  width: number;
  height: number;
  depth: number;
}

/** The pile, thinnest and thickest. */
export interface DeckSolid {
  width: number;
  height: number;
  depth: Range;
}

/** What is left round the pile in the box. */
export interface Room {
  width: Range;
  height: Range;
  depth: Range;
}

export interface NetInfo {
  name: string;
  width: number;
  height: number;
}

/** The box as it was measured when folded. */
export interface BoxInfo {
  kind: string;
  title: string;
  words: string;
  pile: Range;
  /** its thickness */
  board: number;
  /** the room inside */
  clear: Solid;
  outside: Solid;
  deck: DeckSolid;
  room: Room;
  steps: string[];
  nets: NetInfo[];
  stamp: string;
}

export interface LayoutInfo {
  file: string;
  cards: number;
  isBack: boolean;
}

/** A value that was changed here and elsewhere: the maker chooses. */
export interface Conflict {
  id: string;
  label: string;
  file: string;
  mine: string;
  theirs: string;
  place: Place | null;
}

/** All that the page shows. */
export interface State {
  revision: number;
  /** empty: there is no game in the folder yet */
  stateOf: 'game' | 'empty' | 'unreadable';
  /** its name */
  folder: string;
  title: string;
  subtitle: string;
  card: CardFormat;
  stock: string;
  columns: string[];
  colours: GameColour[];
  suits: Suit[];
  decks: Deck[];
  cards: Card[];
  drawings: Drawing[];
  layouts: LayoutInfo[];
  totals: Totals;
  deckHeight: Range | null;
  sheets: SheetsInfo | null;
  box: BoxInfo | null;
  findings: Finding[];
  errors: number;
  warnings: number;
  notes: number;
  /** what would be taken back */
  undo: string | null;
  redo: string | null;
  conflicts: Conflict[];
  /** the card list's file, or none */
  list: string;
  /** whether findings, sheets and box are of this very revision */
  checked: boolean;
}

/** Event `state`: there is a newer revision. */
export interface StateEvent {
  revision: number;
}

/** Event `work`: how far the making of a pack is. */
export interface Work {
  id: string;
  what: string;
  done: number;
  of: number;
  state: 'running' | 'done' | 'stopped' | 'failed';
  words: string;
}

/** Any value. */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

/** The way to a value: keys, and places in lists from 0. */
export type TomlPath = (string | number)[];

/** Millimetres from the top left of the trim. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A key of an element. */
export interface Property {
  key: string;
  /** placeholders as written; null: not given */
  value: Json;
  /** as the maker wrote it */
  text: string;
  place: Place | null;
  /** false: the default */
  given: boolean;
}

export interface LayoutElement {
  id: string;
  kind: string;
  /** where it is written */
  file: string;
  /** in that file */
  path: TomlPath;
  place: Place | null;
  /** for the card that was asked for */
  box: Box;
  /** degrees, clockwise */
  turn: number;
  /** false: not on this card */
  visible: boolean;
  properties: Property[];
  children: LayoutElement[];
}

export interface LayoutView {
  file: string;
  /** the lowest first */
  elements: LayoutElement[];
}

/** A key of the maker's files. */
export interface KeyFacts {
  key: string;
  type: string;
  unit: string;
  low: number | null;
  high: number | null;
  words: string[];
  /** TOML */
  fallback: string;
  /** Markdown */
  meaning: string;
  section: string;
}

export interface Schema {
  /** by kind */
  elements: Record<string, KeyFacts[]>;
  /** by section */
  game: Record<string, KeyFacts[]>;
}

export interface FontFamily {
  family: string;
  weights: number[];
  italic: boolean;
}

/** A picture of the game; width and height in pixels. */
export interface ArtFile {
  file: string;
  width: number;
  height: number;
  bytes: number;
}

/** Where an element lies on one card, mm from the top left of the trim. */
export interface ElementCut {
  card: string;
  x: number;
  y: number;
  w: number;
  h: number;
}

/** A panel as a mesh in the frame of its net. */
export interface BoxPanel {
  name: string;
  /** on the closed box */
  seen: boolean;
  /** degrees that its art is turned */
  upright: number;
  outline: number[][];
  positions: number[];
  normals: number[];
  uvs: number[];
  /** triangles of the printed side */
  printed: number[];
  inside: number[];
  edge: number[];
}

export interface BoxPart {
  name: string;
  panels: BoxPanel[];
  /** where its printed side is to be had */
  texture: string | null;
  inside: string | null;
}

/** A moment of the folding. */
export interface BoxFrame {
  /** in steps */
  progress: number;
  /** by part and panel: 3 rows of 4 */
  poses: number[][][];
}

export interface Bounds {
  low: number[];
  high: number[];
}

/** The pile in the closed box. */
export interface DeckBlock {
  /** its lowest corner */
  at: number[];
  size: number[];
}

/** x right, y down, z away from whoever looks at the printed side. */
export interface BoxModel {
  stamp: string;
  thickness: number;
  parts: BoxPart[];
  /** of all moments */
  bounds: Bounds;
  frames: BoxFrame[];
  /** the progress */
  deckGoesIn: number;
  deck: DeckBlock | null;
  steps: string[];
}

/** Cuts that are made one after another without touching the fence. */
export interface CutStep {
  words: string;
  /** millimetres from fence to blade, `88.9`; null: by the marks */
  setting: string | null;
  /** of one stack */
  cuts: number;
  /** quarters clockwise from the step before */
  turn: number;
}

/** Sheets that are cut alike. */
export interface CutKind {
  words: string;
  /** their places among all sheets, from 0 */
  sheets: number[];
  /** cards on each */
  pieces: number;
  /** sheets in a stack */
  atOnce: number;
  stacks: number;
  /** each is gone through with all stacks before the next */
  steps: CutStep[];
}

/** What is left to do by hand. */
export interface HandStep {
  kind: 'punch' | 'crease' | 'cut' | 'glue';
  title: string;
  words: string;
  /** corners, creases, cuts or seams */
  count: number;
  /** which net of the box */
  net: number | null;
}

/** How one deck is cut. */
export interface CuttingInfo {
  /** changes when a step does */
  stamp: string;
  tool: string;
  /** false: distances are measured with a rule */
  fence: boolean;
  /** of all stacks */
  cuts: number;
  stacks: number;
  /** how often the fence is set */
  settings: number;
  /** for a deck, step by step; none when it is not reckoned */
  time: string;
  /** how far cuts stray and what is spoilt by it */
  spares: string;
  /** none: there is no plan, and the findings say why */
  kinds: CutKind[];
  hand: HandStep[];
  cautions: string[];
}

export interface CostRow {
  what: string;
  /** for each number of decks */
  values: string[];
  sum: boolean;
}

export interface CostGroup {
  title: string;
  rows: CostRow[];
}

/** What one and more decks take. */
export interface CostTable {
  decks: number[];
  groups: CostGroup[];
  /** what shops ask */
  quotations: string[];
  /** what has no price, what is assumed */
  notes: string[];
}

/** A place on the front page and how far the back of its card may lie off, two deviations. */
export interface BackBand {
  trim: Trim;
  reachX: number;
  reachY: number;
}

/** Where backs will lie behind their fronts. */
export interface RegisterInfo {
  known: 'assumed' | 'said' | 'measured';
  /** the profile that was used, or none */
  printer: string;
  /** whether what is the same on every sheet is taken off */
  corrected: boolean;
  words: string[];
  bands: BackBand[];
}

/** How the game is cut and what it takes. Of the checked moment with this revision. */
export interface MakingInfo {
  revision: number;
  /** [cutting] by its keys; null: as usual */
  wishes: Record<string, Json>;
  /** null: there are no sheets */
  cutting: CuttingInfo | null;
  costs: CostTable | null;
  /** null: backs are not printed behind their fronts */
  register: RegisterInfo | null;
}

/** One thing that helps against stray cuts. */
export interface Remedy {
  what: string;
  /** what the face has of it */
  has: string;
  /** what keeps the fault as rare as the maker wants */
  needs: string;
  enough: boolean;
}

/** How the cuts of a face are likely to fall, at the worst place of the run. */
export interface LikelyCuts {
  /** of the face */
  key: string;
  /** each the corners x, y, x, y … clockwise from the top left, millimetres in the trim */
  cuts: number[][];
  /** how far the face's picture with its bleed reaches past the trim */
  bleed: number;
  chances: string[];
  /** how rare faults are to be: `1 in 20` */
  rare: string;
  remedies: Remedy[];
}

/** A place for a card; millimetres from the mat's top left corner. */
export interface MatPlace {
  /** of the mat's layout */
  element: string;
  /** among the places of its element, from 1 */
  number: number;
  /** that it is for, or none */
  suit: string;
  /** its middle */
  x: number;
  y: number;
  /** degrees, clockwise */
  turn: number;
  /** of the line round it */
  width: number;
  height: number;
  /** cards lie on it with their long side level */
  turned: boolean;
  /** of cards on each other */
  pile: boolean;
}

/** What is seen of one sheet in the joined mat. */
export interface MatSheet {
  /** `A1` */
  name: string;
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The mat on the game's own sheets. */
export interface MatTiling {
  words: string;
  /** millimetres that two neighbours print both */
  overlap: number;
  sheets: MatSheet[];
}

/** The mat of the newest moment. */
export interface MatInfo {
  /** its layout */
  file: string;
  words: string[];
  /** millimetres, finished */
  width: number;
  height: number;
  /** how far its picture reaches past the finished edge */
  bleed: number;
  /** of it, 0 for paper */
  hem: number;
  safe: number;
  places: MatPlace[];
  /** null: it goes on no sheets of the game's paper */
  tiling: MatTiling | null;
  /** changes when its looks do */
  stamp: string;
}

export interface MatAnswer {
  /** null: the game has none */
  mat: MatInfo | null;
}

/** The text of a cell. */
export interface CellChange {
  kind: 'cell';
  /** art/sources.csv; left out, the card list */
  file?: string;
  row: number;
  /** of the row */
  id: string;
  column: string;
  text: string;
}

export interface RowsChange {
  kind: 'rows';
  /** as in CellChange */
  file?: string;
  op: 'add' | 'copy' | 'remove' | 'move';
  row: number;
  id: string;
  to?: number;
  /** cells by their columns */
  values?: Record<string, string>;
}

/** A value in a TOML file; null takes the key away. */
export interface ValueChange {
  kind: 'value';
  file: string;
  path: TomlPath;
  value: Json;
}

/** An element of a layout. */
export interface ElementChange {
  kind: 'element';
  file: string;
  op: 'add' | 'remove' | 'move';
  path: TomlPath;
  to?: number;
  value?: Record<string, Json>;
}

export interface ColumnChange {
  kind: 'column';
  /** as in CellChange */
  file?: string;
  op: 'add' | 'remove' | 'rename';
  column: string;
  to?: string;
}

/** All of a plain text: the rules. */
export interface TextChange {
  kind: 'text';
  file: string;
  text: string;
}

export type Change = CellChange | RowsChange | ValueChange | ElementChange | ColumnChange | TextChange;

/** Changes that are made together or not at all. */
export interface EditRequest {
  /** the revision that the maker saw */
  base: number;
  label: string;
  changes: Change[];
  /** edits in a row: one step to undo */
  group?: string;
  /** shown, not written */
  transient?: boolean;
}

export interface EditAnswer {
  ok: boolean;
  revision: number;
}

export interface UndoAnswer {
  ok: boolean;
  revision: number;
  label: string;
}

export interface ConflictChoice {
  id: string;
  keep: 'mine' | 'theirs';
}

/** 409 */
export interface ConflictAnswer {
  message: string;
  hint: string;
  conflicts: Conflict[];
}

/** 422 */
export interface FindingAnswer {
  message: string;
  hint: string;
  findings: Finding[];
}

export interface UploadAnswer {
  /** where it was put */
  file: string;
}

export interface MakeRequest {
  parts: string[];
  decks: number;
  /** ids */
  only: string[];
}

export interface WorkId {
  id: string;
}

export interface PackFile {
  name: string;
  bytes: number;
  what: string;
}

export interface Pack {
  files: PackFile[];
  written: boolean;
  /** report.json, or null */
  report: Json;
  /** what was printed again last; names begin with reprint/ */
  reprint: PackFile[];
}

export interface OpenRequest {
  /** a file of the pack; none: its folder */
  name: string;
}

export interface NewRequest {
  /** those dropped on the page, else those in the folder */
  from: 'starter' | 'pictures';
  title: string;
  /** a name, or 63.5x88.9; none: chosen from the pictures */
  size: string;
}

export interface Done {
  ok: boolean;
}

/** Why a question was refused. */
export interface Problem {
  message: string;
  hint: string;
}

/** A numbered scale, by its middle. */
export interface SheetScale {
  number: number;
  x: number;
  y: number;
  /** else it is read down */
  across: boolean;
}

export interface SheetLetter {
  letter: string;
  x: number;
  y: number;
}

/** A bar to hold a ruler to. */
export interface SheetBar {
  length: number;
  x: number;
  y: number;
  upright: boolean;
}

/** Where the marks of the measuring sheet are, all as seen from the front. */
export interface MeasuringSheet {
  width: number;
  height: number;
  dotSize: number;
  codeSize: number;
  pinRing: number;
  /** from the middle of a scale to its last line */
  scaleReach: number;
  /** of the front */
  dots: number[][];
  codes: number[][];
  /** where they lie behind the front */
  backDots: number[][];
  backCodes: number[][];
  /** rings to prick */
  pins: number[][];
  scales: SheetScale[];
  letters: SheetLetter[];
  /** the back's letters, in the order of those they lie behind */
  behind: SheetLetter[];
  bars: SheetBar[];
  words: Box;
}

/** What a printer is called, and how it is fed. */
export interface PrinterAbout {
  name: string;
  tray: string;
  stock: string;
  /** a name, or 210x297 */
  paper: string;
  /** as the sheet is held to be read */
  held: 'upright' | 'sideways';
  /** who turns the sheet */
  backs: 'printer' | 'by-hand';
  flip: 'long-edge' | 'short-edge';
}

/** One sheet as it was read, in the reader's own words; none where nothing was read. */
export interface SheetReadings {
  /** behind A */
  letter: string;
  /** of (1) to (8) */
  scales: string[];
  /** as a ruler has it */
  bar150: string;
  bar200: string;
}

export interface PrinterReadings {
  about: PrinterAbout;
  /** 1 to 20 */
  sheets: SheetReadings[];
}

export interface SheetScans {
  /** ScanTaken.scan */
  front: string;
  back: string;
  bar150: string;
  bar200: string;
}

export interface PrinterScans {
  about: PrinterAbout;
  /** 1 to 10 */
  sheets: SheetScans[];
}

/** A picture that was uploaded. */
export interface ScanTaken {
  scan: string;
}

export interface PrinterKeep {
  /** MeasuredPrinter.id */
  id: string;
  /** what it shall be called */
  name: string;
  where: 'game' | 'machine';
  /** whether a printer of that name may give way */
  replace: boolean;
}

export interface PrinterKept {
  /** its name in game.toml */
  printer: string;
  /** where it lies, in words */
  file: string;
  revision: number;
}

/** How far the back lies off the front at a place of the sheet, seen from the front. */
export interface DriftPlace {
  x: number;
  y: number;
  /** the mean, across and down */
  off: number[];
  /** of each sheet */
  sheets: number[][];
  /** how far a single sheet strays from the mean, 95 in 100 */
  reach: number;
}

/** Where what is drawn on both pages comes to lie on the paper, seen from the front: affine maps (a, b, c, d, e, f) from each page's own frame. */
export interface Meeting {
  /** which of those measured; 0: the mean */
  sheet: number;
  frontBefore: number[];
  backBefore: number[];
  /** with the correction */
  frontAfter: number[];
  backAfter: number[];
}

/** What a picture of a printer is drawn from. */
export interface PrinterDrawing {
  /** of the paper */
  width: number;
  height: number;
  /** so many times an arrow can be drawn larger */
  magnified: number;
  /** the longest of the mean */
  farthest: number;
  places: DriftPlace[];
  /** the bound of the mean at the worst corner, 95 in 100 */
  within: number | null;
  /** whether it is known how far single sheets stray */
  strays: boolean;
  /** the mean first */
  meetings: Meeting[];
}

/** What was found, and is not kept yet. */
export interface MeasuredPrinter {
  id: string;
  /** what its file would be called */
  printer: string;
  words: string[];
  /** in words: by what each was measured, how well */
  sheets: string[];
  notes: string[];
  drawing: PrinterDrawing;
  /** why the game's sheets cannot be corrected by it */
  differs: Finding[];
}

/** A printer that was measured. */
export interface KnownPrinter {
  /** its name in game.toml */
  printer: string;
  where: 'game' | 'machine';
  /** the game has another of that name, which goes first */
  hidden: boolean;
  name: string;
  tray: string;
  stock: string;
  /** a day, 2026-11-25, or none */
  measured: string;
  how: 'eye' | 'scans' | 'typed';
  paper: string;
  backs: 'printer' | 'by-hand';
  flip: 'long-edge' | 'short-edge';
  sheets: number;
  words: string[];
  drawing: PrinterDrawing | null;
  differs: Finding[];
  /** why its file cannot be read */
  broken: Finding[];
}

/** The printers that a game can be printed for. */
export interface Printers {
  /** the one that the game names, or none */
  uses: string;
  kind: 'laser' | 'inkjet' | 'copy-shop';
  /** those that the measuring sheet has room on */
  papers: string[];
  /** of the game's sheets */
  paper: string;
  held: 'upright' | 'sideways';
  backs: 'printer' | 'by-hand';
  flip: 'long-edge' | 'short-edge';
  today: string;
  /** whether this machine has a place for printers */
  machine: boolean;
  printers: KnownPrinter[];
}

export type RulesKind = 'flat' | 'half' | 'accordion' | 'eight-pages' | 'booklet';

/** Millimetres. */
export interface RulesSize {
  width: number;
  height: number;
}

/** A way in which the rules could be folded. */
export interface RulesOption {
  kind: RulesKind;
  /** side by side on a leaf */
  panels: number;
  leaves: number;
  /** it has */
  pages: number;
  /** the text takes; 0 when it is not known */
  needed: number;
  verdict: 'chosen' | 'too-few-pages' | 'more-work' | 'larger-than-sheet';
  words: string;
}

/** How the rules are set and folded. */
export interface RulesForm {
  kind: RulesKind;
  panels: number;
  leaves: number;
  bothSides: boolean;
  /** `an accordion of 4 panels` */
  words: string;
  /** it has */
  pages: number;
  /** pages to be seen: more when the text does not go on those it has */
  shown: number;
  /** pages with words */
  filled: number;
  /** of one page */
  page: RulesSize;
  folded: RulesSize;
  /** folded, mm */
  thickness: number;
  /** points */
  type: number;
  /** of paper for one copy */
  sheets: number;
  /** of the first sheet as it is printed; null: none takes it */
  sheet: RulesSize | null;
  why: string[];
  /** the least work first */
  options: RulesOption[];
  /** of the folding, each with a picture */
  steps: string[];
}

/** A number that the text prints. */
export interface RulesCount {
  /** between the braces */
  written: string;
  cards: number;
}

/** The rules of the game at one moment. */
export interface RulesInfo {
  revision: number;
  /** of their text, `rules.md` */
  file: string;
  /** null: there are none yet */
  text: string | null;
  /** [rules] by its keys: form, panels, type; null: as usual */
  asked: Record<string, Json>;
  /** null: nothing can be set, and the findings say why */
  form: RulesForm | null;
  counts: RulesCount[];
  /** that the text may show */
  symbols: string[];
  findings: Finding[];
}

/** A file that pieces of the game show, and what the list of sources says of it. */
export interface SourceFile {
  file: string;
  /** ids of cards, `back of main`, `box` */
  pieces: string[];
  /** of the list, from 0; null: it has none */
  row: number | null;
  /** as the list names it: a name, or a pattern for many */
  listed: string;
  author: string;
  source: string;
  licence: string;
  changes: string;
  /** what stands against giving it on; none: nothing does */
  problem: string;
  hints: string[];
}

/** What the columns of the list are called; none: it has no such column. */
export interface SourceColumns {
  file: string;
  author: string;
  source: string;
  licence: string;
  changes: string;
}

/** A licence that is known, in short. What counts is its text. */
export interface LicenceInfo {
  id: string;
  name: string;
  /** what it lets one do, and what it asks */
  words: string;
}

/** The game on one paper, as it was shared last. */
export interface EditionInfo {
  paper: string;
  sheets: number;
  boardSheets: number;
  rulesSheets: number;
  matSheets: number;
  /** per cent of a printed side, all colours added up */
  ink: number;
  lowInk: number;
  /** for who has the earlier cards; 0: no file */
  changedSheets: number;
}

/** The share of this version, if there is one. */
export interface ShareMade {
  /** in the game folder */
  folder: string;
  /** names as OpenRequest has them */
  files: PackFile[];
  editions: EditionInfo[];
}

/** Whether and how the game can be given to others. Of the moment with this revision. */
export interface ShareInfo {
  revision: number;
  /** what the files begin with: `reef-1.0` */
  name: string;
  version: string;
  /** whether there is a list of sources */
  listed: boolean;
  columns: SourceColumns;
  /** of the list */
  rows: number;
  /** those with a problem first */
  files: SourceFile[];
  licences: LicenceInfo[];
  /** what some licences ask for */
  notes: string[];
  /** what else stands against it */
  faults: string[];
  /** names of shares that were made */
  earlier: string[];
  made: ShareMade | null;
}

export interface ShareRequest {
  /** the name of an earlier share, or none */
  since: string;
  /** files and pieces */
  without: string[];
  /** files whose makers agreed */
  asked: string[];
}

/** How large a picture prints at a resolution. */
export interface PrintSize {
  ppi: number;
  /** mm */
  width: number;
  /** mm */
  height: number;
}

/** A colour with its name, and how much of the pictures it covers. */
export interface PaletteColour {
  name: string;
  /** #rrggbb */
  colour: string;
  /** 0 to 1; 0 where nobody looked */
  share: number;
}

export interface PrintedSize {
  /** mm */
  width: number;
  /** mm */
  height: number;
}

/** A picture file in the game folder. */
export interface PictureInfo {
  /** its path in the folder */
  file: string;
  /** of its bytes */
  stamp: string;
  kind: 'pixels' | 'vectors' | 'unreadable';
  /** pixels; of a drawing its natural size */
  width: number;
  height: number;
  bytes: number;
  /** whether parts are transparent */
  alpha: boolean;
  /** of its colours; none: it has none and is taken as sRGB */
  profile: string;
  /** where it prints coarsest */
  ppi: number | null;
  /** there */
  printed: PrintedSize | null;
  /** that show it: ids of cards, `back of main`, `box` */
  pieces: string[];
  state: 'coarse' | 'soft' | 'sharp' | 'vectors' | 'unreadable' | 'unused';
  /** the same as a sentence, with what to do */
  words: string;
  /** at 300, 220 and 150 ppi */
  sizes: PrintSize[];
  /** pictures beside it that were made from it */
  made: string[];
}

/** All pictures of the game. Of the moment with this revision. */
export interface PicturesInfo {
  revision: number;
  /** what the game asks for */
  goodPpi: number;
  /** below it steps are plain to see */
  leastPpi: number;
  /** the coarsest first, those on no piece last */
  pictures: PictureInfo[];
  /** named by the game */
  colours: PaletteColour[];
  /** sentences */
  brief: string[];
}

/** A picture as the page saw it. */
export interface PictureAsked {
  file: string;
  /** 409 when it has another by now */
  stamp: string;
}

/** Areas of one colour of the drawing get another; where that is one of its colours already, the areas become one. */
export interface ColourInstead {
  from: string;
  to: string;
}

export interface RedrawRequest {
  file: string;
  stamp: string;
  closeness: 'closest' | 'fewest';
  /** 0: as many as it needs */
  colours: number;
  /** only these; none: those of the picture */
  palette: string[];
  instead: ColourInstead[];
}

export interface DrawingColour {
  colour: string;
  name: string;
  /** of the drawing's area */
  share: number;
}

/** Pixels of the picture. */
export interface PicturePart {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A picture redrawn as a drawing, and how true it is. */
export interface Redrawing {
  /** to look at it and to accept it */
  id: string;
  width: number;
  height: number;
  verdict: 'good' | 'look' | 'keep' | 'hopeless';
  reasons: string[];
  /** CIEDE2000 */
  mean: number;
  /** which 95 % of it do not exceed */
  worst: number;
  ssim: number;
  nodes: number;
  bytes: number;
  /** by area */
  colours: DrawingColour[];
  /** lettering that was left out */
  smallText: PicturePart[];
  findings: Finding[];
}

/** In pixels of the picture. */
export interface PicturePoint {
  x: number;
  y: number;
}

/** A card in a photograph. */
export interface FoundCard {
  /** four, clockwise from its top left as it will stand */
  corners: PicturePoint[];
  /** none: it is sure */
  doubts: string[];
}

export interface FoundCards {
  /** of the picture */
  width: number;
  height: number;
  cards: FoundCard[];
  /** whether they lie in rows and columns */
  grid: boolean;
}

export interface CardCorners {
  /** four */
  corners: PicturePoint[];
}

export interface StraightenRequest {
  file: string;
  stamp: string;
  cards: CardCorners[];
  /** 63x88; none: that of the game's cards */
  shape: string;
}

export interface CutOutRequest {
  file: string;
  stamp: string;
  /** 0 to 1: how far from the ground's colour still belongs to it */
  reach: number;
}

export interface PullRequest {
  file: string;
  stamp: string;
  /** CIEDE2000 within which a colour becomes one of the game's */
  reach: number;
}

export interface MadePicture {
  width: number;
  height: number;
  doubts: string[];
}

/** Pictures made from a picture, not yet in the folder. */
export interface MadePictures {
  id: string;
  pictures: MadePicture[];
  words: string[];
}

export interface AcceptRequest {
  id: string;
  /** which of them; none: all */
  n: number[];
  /** whether pieces show it from now on */
  instead: boolean;
}

export interface Accepted {
  /** that were written */
  files: string[];
  /** values changed in the maker's files, one step to undo */
  changes: number;
  findings: Finding[];
  revision: number;
}

export interface PaletteRequest {
  /** none: all that the game shows */
  files: string[];
  most: number;
}

export interface PicturesPalette {
  /** by area */
  colours: PaletteColour[];
}
