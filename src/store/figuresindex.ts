/**
 * Index of what units add to figures, `logs/index/figures.json`: a cache, since to fold a unit's journal takes a hundred times as
 * long as to read its row. Safe to delete at any time. As in the search index, a row counts while its journal has the same file id,
 * length and mtime, and the index is signed where a bench here has a key.
 */
import { type Packed, packed, type Unpacking, unpacked } from '../figures/packed.js';
import type { UnitFigures } from '../figures/unitfigures.js';
import type { Disk } from './disk.js';
import { attempt, makeFolders, writeSpare } from './files.js';
import { indexPlace } from './findindex.js';
import { journalMarks } from './journals.js';

const FORMAT = 'pinchrod-figures-index 1';
/** Longer texts are more than one string can hold. */
const LARGEST = 450_000_000;
/** After so many units that were read anew, and then twice as many, what is there is kept: a long first time can be taken up again. */
const KEEP_AFTER = 200;

interface Kept extends Packed {
  /** What rows rest on besides their journals: the limits that say what each of them is of. */
  readonly under: string;
  /** Of each row: `file id/length/mtime`. */
  readonly marks: readonly string[];
}

export interface FiguresWanted extends Unpacking {
  /** Hash of what the figures rest on besides journals. */
  readonly under: string;
  readonly job: string | undefined;
  /** Folds a unit; undefined where it cannot be read. */
  readonly fold: (job: string, unit: string) => UnitFigures | undefined;
  /** Called while units are folded. */
  readonly progress: (done: number, of: number) => void;
}

/** What every unit with a journal adds, in no order; rows that no longer count are made anew and kept. */
export function figuresIndex(
  disk: Disk,
  root: string,
  { under, job, wanted, work, fold, progress }: FiguresWanted,
): readonly UnitFigures[] {
  const place = indexPlace(disk, root, 'figures', FORMAT);
  const before = load(disk, place, under);
  const known = new Map(before ? before.marks.map((mark, i) => [mark, i] as const) : []);
  const marks = journalMarks(disk, root);
  const mine = (each: { readonly job: string }) => job === undefined || each.job === job;
  const stale = marks.filter(({ job, unit, mark }) => !known.has(`${job}/${unit} ${mark}`));
  const toFold = stale.filter(mine);
  const old = before ? marks.flatMap(({ job, unit, mark }) => known.get(`${job}/${unit} ${mark}`) ?? []) : [];
  const still: Packed = before
    ? { words: before.words, rows: old.map((i) => before.rows[i]!) }
    : { words: [], rows: [] };
  const fresh: { readonly mark: string; readonly figures: UnitFigures }[] = [];
  let keepAt = KEEP_AFTER;
  for (const [i, { job, unit, mark }] of toFold.entries()) {
    progress(i, toFold.length);
    const figures = fold(job, unit);
    if (figures) fresh.push({ mark: `${job}/${unit} ${mark}`, figures });
    if (fresh.length === keepAt) {
      keep();
      keepAt *= 2;
    }
  }
  if (fresh.length > 0) keep();
  const kept = unpacked(still, { wanted, work });
  return [...kept, ...fresh.map(({ figures }) => figures)].filter(mine);

  function keep(): void {
    save(disk, root, place, {
      under,
      marks: [...old.map((i) => before!.marks[i]!), ...fresh.map(({ mark }) => mark)],
      ...packed(
        fresh.map(({ figures }) => figures),
        still,
      ),
    });
  }
}

type Place = ReturnType<typeof indexPlace>;

/** Nothing if the file is damaged, was not written here, has another version or rests on something else. */
function load(disk: Disk, { file, mark }: Place, under: string): Kept | undefined {
  let kept: Kept | undefined;
  attempt(() => {
    const stat = disk.stat(file);
    if (stat?.kind !== 'file' || stat.size > LARGEST) return;
    const [format, said, text] = disk.read(file).toString('utf8').split('\n');
    if (format !== FORMAT || text === undefined || mark(text) !== said) return;
    const read = JSON.parse(text) as Kept;
    if (read.under === under) kept = read;
  });
  return kept;
}

/** All or nothing; if the disk refuses, the only cost is time on the next query. */
function save(disk: Disk, root: string, { file, mark }: Place, kept: Kept): void {
  attempt(() => {
    makeFolders(disk, root, ['logs', 'index']);
    const text = JSON.stringify(kept);
    if (text.length < LARGEST) writeSpare(disk, file, Buffer.from(`${FORMAT}\n${mark(text)}\n${text}\n`));
  });
}
