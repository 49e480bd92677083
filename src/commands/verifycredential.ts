/** A credential that comes back: signed by a key that counts here, and saying what its record says. */
import { type Problem, problemFactory } from '../base/problem.js';
import { type Credential, credentialWrong, didOf } from '../record/credential.js';
import { realDisk } from '../store/disk.js';
import { publicKeys } from '../store/key.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import type { Workshop } from '../store/workshop.js';
import { countedFor } from './unitload.js';

const raise = problemFactory(VERIFY_MESSAGES);

export function credentialProblems(workshop: Workshop, credential: Credential, file: string): Problem[] {
  const { keys, kept } = countedFor(realDisk, workshop);
  const pems = kept
    ? [...keys.values()].flatMap((key) => ('pem' in key ? key.pem : []))
    : [...publicKeys(realDisk, workshop.root).keys.values()];
  const [issuer = ''] = credential.proof.verificationMethod.split('#');
  const pem = pems.find((each) => didOf(each) === issuer);
  if (pem === undefined) return [raise('verify.credential', { issuer }, { file })];
  const wrong = credentialWrong(credential, pem);
  return wrong === undefined ? [] : [raise(`verify.credential/${wrong}`, {}, { file })];
}
