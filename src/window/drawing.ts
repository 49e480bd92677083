/** The unit's drawing: one geometry, two renderers. */
export { type DrawSvgOptions, drawSvg } from './drawsvg.js';
export { type DrawTextOptions, drawText } from './drawtext.js';
export { type Elevation, elevation } from './elevation.js';
