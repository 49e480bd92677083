/** `record --credential`: a released unit's record as a Verifiable Credential, signed with this bench's key. */
import { err, ok, problemFactory, type Result } from '../base/problem.js';
import { credentialOf } from '../record/credential.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import type { RecordView } from '../record/schema.js';
import { realDisk } from '../store/disk.js';
import { signingKey } from '../store/register/signing.js';
import type { Workshop } from '../store/workshop.js';

const raise = problemFactory(RECORD_MESSAGES);

/** As JSON, indented by two blanks. Fails where the unit is not released, or the bench has no key that counts. */
export function credentialText(workshop: Workshop, view: RecordView): Result<string> {
  const unit = view.unit.id;
  if (!view.verdict.finished) return err(raise('record.credential', { unit }));
  const bench = process.env.PINCHROD_BENCH ?? workshop.bench;
  const key = signingKey(realDisk, workshop.root, bench);
  if (!key.ok) return key;
  if (!key.value) return err(raise('record.credential/key', { bench }));
  return ok(`${JSON.stringify(credentialOf(view, key.value, key.value.publicPem), null, 2)}\n`);
}
