/** All catalogues, by room. */
export { CATALOGUES } from '../../src/commands/allwords.js';
