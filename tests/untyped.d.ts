/** Packages of tests that have no types of their own. */
declare module '@digitalbazaar/credentials-context' {
  export const contexts: ReadonlyMap<string, object>;
}
declare module '@digitalbazaar/data-integrity' {
  export class DataIntegrityProof {
    constructor(options: { cryptosuite: object });
  }
}
declare module '@digitalbazaar/eddsa-jcs-2022-cryptosuite' {
  export function createVerifyCryptosuite(): object;
}
declare module 'jsonld' {
  const jsonld: { expand(document: unknown, options: object): Promise<unknown[]> };
  export default jsonld;
}
declare module 'jsonld-signatures' {
  const jsigs: {
    verify(document: unknown, options: object): Promise<{ verified: boolean; error?: unknown }>;
    purposes: { AssertionProofPurpose: new () => object };
  };
  export default jsigs;
}
