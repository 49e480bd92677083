/** Stands for the decoder of WOFF2, half a megabyte that the font library brings: documents embed TrueType fonts only. */
export default function decompress() {
  throw new Error('WOFF2 fonts are not read; use a TrueType font.');
}
