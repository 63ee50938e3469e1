/**
 * Pages as strings: client pages from a `ClientView`, the care page from a `CareView`, workshop pages from figures. The edge of
 * the site: it compiles templates into a cache folder and reads font files; the bytes of a page depend on its data alone.
 */
export { bundleCacheFolder, programDigest } from './compile.ts';
export { type CarePageExtras, type ClientPageExtras, clientSheets, fontFiles, openPages, type PageFile, type Pages } from './pages.ts';
