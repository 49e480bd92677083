/**
 * What verdicts rest on, kept when it is used: the instruments with their calibration, the people with their levels, how
 * readings are judged, who makes the window, and the first-offs of set-ups. A line of a journal names what has changed.
 */
import type { Disk } from '../store/disk.js';
import { pinSources } from '../store/hashed.js';
import { NameKeeper } from '../store/names.js';
import type { Workshop } from '../store/workshop.js';
import { chainLine, sha256 } from '../unit/chain.js';
import { type Basis, basisAfter, type EventBody, onBasis } from '../unit/events.js';
import { teamText } from '../unit/team.js';
import type { DecisionContext, Person } from '../unit/types.js';

interface Text {
  readonly text: string;
  readonly hash: string;
}
const textOf = (text: string): Text => ({ text, hash: sha256(text) });

type Setups = DecisionContext['setups'];
type Shared = DecisionContext['shared'];

/** What a write needs besides its events. */
export interface Used {
  readonly workshop: Workshop;
  /** With the levels that count now. */
  readonly people: readonly Person[];
  readonly setups: Setups;
  readonly shared?: Shared;
  /** What was read, where it was not the procedure in its own language; see `wordsReadText`. */
  readonly words?: string | undefined;
}

export class BasisKeeper {
  readonly #names: NameKeeper;
  /** Texts that this process knows to be durable. */
  readonly #pinned = new Set<string>();
  /** As long as people or files are the same objects, so are their texts. */
  #team: { readonly of: readonly Person[]; readonly text: Text } | undefined;
  #files: { readonly of: Workshop; readonly instruments: Text; readonly house: Text } | undefined;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {
    this.#names = new NameKeeper(disk, root);
  }

  /**
   * The events with what they rest on where the journal does not say so yet; the texts are durable on return. Throws
   * StoreError.
   *
   * @param before what the journal rests on so far
   * @param revising the rules of judging are taken anew
   */
  onto(
    before: Basis,
    bodies: readonly EventBody[],
    used: Used,
    { revising = false }: { readonly revising?: boolean } = {},
  ): readonly EventBody[] {
    const { instruments, house } = this.#filesOf(used.workshop);
    const team = this.#teamOf(used.people);
    const ends = bodies.some(({ kind }) => kind === 'opened' || kind === 'finished' || kind === 'scrapped');
    const setups = new Map<string, Text>();
    for (const body of bodies) {
      if (body.kind !== 'answered' || body.cited || body.setup === undefined) continue;
      const proof = Object.values(used.setups ?? {}).find((each) => each?.id === body.setup)?.firstOff;
      if (proof) setups.set(body.setup, textOf(chainLine(proof)));
    }
    const fresh: { -readonly [K in keyof Basis]: Basis[K] } = {};
    const texts: Text[] = [];
    const add = (kind: Exclude<keyof Basis, 'setups'>, text: Text): void => {
      if (before[kind] === text.hash) return;
      fresh[kind] = text.hash;
      texts.push(text);
    };
    add('instruments', instruments);
    add('team', team);
    if (before.rules === undefined || revising) add('rules', house);
    if (before.maker === undefined || ends || revising) add('maker', house);
    if (used.words !== undefined) add('words', textOf(used.words));
    for (const [id, text] of setups)
      if (before.setups?.[id] !== text.hash) {
        fresh.setups = { ...fresh.setups, [id]: text.hash };
        texts.push(text);
      }
    this.#pin(texts);
    const basis = basisAfter(before, { basis: fresh });
    return bodies.map((body, i) => {
      const cited = citedOn(body, basis, used.shared);
      return i === 0 && Object.keys(fresh).length > 0 ? onBasis(cited, fresh) : cited;
    });
  }

  /** What a first-off rests on; durable on return. Throws StoreError. */
  ofFirstOff(workshop: Workshop, people: readonly Person[]): Basis {
    const { instruments } = this.#filesOf(workshop);
    const team = this.#teamOf(people);
    this.#pin([instruments, team]);
    return { instruments: instruments.hash, team: team.hash };
  }

  #teamOf(people: readonly Person[]): Text {
    if (this.#team?.of !== people)
      this.#team = { of: people, text: textOf(teamText(people, (person) => this.#names.hashOf(person))) };
    return this.#team.text;
  }

  #filesOf(workshop: Workshop) {
    if (this.#files?.of !== workshop) {
      const { instruments, house } = workshop.sources;
      this.#files = { of: workshop, instruments: textOf(instruments.text), house: textOf(house.text) };
    }
    return this.#files;
  }

  #pin(texts: readonly Text[]): void {
    const missing = texts.filter(({ hash }) => !this.#pinned.has(hash));
    if (missing.length === 0) return;
    pinSources(this.disk, this.root, Object.fromEntries(missing.map(({ hash, text }) => [hash, text])));
    for (const { hash } of missing) this.#pinned.add(hash);
  }
}

/** A fact of another unit rests on what that unit rested on. */
function citedOn(body: EventBody, own: Basis, shared: Shared): EventBody {
  if ((body.kind !== 'answered' && body.kind !== 'released') || !body.cited) return body;
  const there = shared?.basisAt(body.cited);
  if (!there) return body;
  const setup = body.kind === 'answered' ? body.setup : undefined;
  const proof = setup === undefined ? undefined : there.setups?.[setup];
  const basis: Basis = {
    ...(there.instruments === own.instruments ? {} : { instruments: there.instruments }),
    ...(there.team === own.team ? {} : { team: there.team }),
    ...(proof === undefined || own.setups?.[setup!] === proof ? {} : { setups: { [setup!]: proof } }),
  };
  const given = Object.values(basis).some((each) => each !== undefined);
  return given ? { ...body, cited: { ...body.cited, basis } } : body;
}
