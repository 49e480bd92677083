/**
 * Journals of the demonstration job's units, built by the rules to their end, chained, signed and under the job's seal,
 * with their evidence and sources: a workshop's files in memory.
 */
import { makeJobSeal } from '../../src/store/jobseal.js';
import { canonicalText, chainEvent, sha256 } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { makeKeyPair, sealOn, signerOf } from '../../src/unit/sealing.js';
import { whole } from '../unit/demonstration.js';

export const JOB = 'pier-house';
const PHOTO = Buffer.from('an invented photo');
const SOURCE = Buffer.from('format: invented\n');

/** The files of a workshop with these units; each unit's lines without their ends. */
export function realWorkshop(units: readonly string[]): {
  readonly files: Map<string, Uint8Array>;
  readonly lines: ReadonlyMap<string, readonly string[]>;
} {
  const { id, privatePem, publicPem } = makeKeyPair();
  const signer = signerOf(privatePem)!;
  const files = new Map<string, Uint8Array>([
    [`shared/keys/${id}.pem`, Buffer.from(publicPem)],
    [`logs/sources/${sha256(SOURCE)}`, SOURCE],
    [`logs/${JOB}/evidence/${sha256(PHOTO)}`, PHOTO],
  ]);
  const lines = new Map<string, readonly string[]>();
  const sealed: { unit: string; lines: number; hash: string }[] = [];
  for (const unit of units) {
    const events: JournalEvent[] = [];
    const add = (body: EventBody, { at, by, bench }: { at: string; by: string; bench: string }) => {
      const last = events.at(-1);
      events.push(chainEvent(body, { at, by, bench }, last));
    };
    for (const event of whole(unit).state.events) add(bodyOf(event, unit), event);
    const last = events.at(-1)!;
    add(sealOn(last, signer), last);
    const texts = events.map(canonicalText);
    lines.set(unit, texts);
    sealed.push({ unit, lines: events.length, hash: events.at(-1)!.hash });
    files.set(`logs/${JOB}/${unit}.jsonl`, Buffer.from(`${texts.join('\n')}\n`));
  }
  const seal = makeJobSeal(JOB, sealed, { at: '2026-03-09T16:00:00.000Z', bench: 'bench-1', signer });
  files.set(`logs/${JOB}/job.seal.json`, Buffer.from(JSON.stringify(seal)));
  return { files, lines };
}

/** The event as it was decided; what it names is there. */
function bodyOf(event: JournalEvent, unit: string): EventBody {
  const { v: _v, n: _n, at: _at, by: _by, bench: _bench, prev: _prev, hash: _hash, ...body } = event;
  if (body.kind === 'opened') return { ...body, unit, job: JOB, sources: { limits: sha256(SOURCE) } };
  if (!('evidence' in body)) return body;
  return {
    ...body,
    evidence: [{ sha256: sha256(PHOTO), name: 'photo.jpg', bytes: PHOTO.length }],
  } as EventBody;
}
