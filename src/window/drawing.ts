/** The unit's drawing: one geometry, two renderers. */
export { drawSvg } from './drawsvg.js';
export { drawText } from './drawtext.js';
export { elevation } from './elevation.js';
