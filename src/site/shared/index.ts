/** What both kinds of page share in plain TypeScript: fonts, texts, the frame's slot for the content policy. Templates and style sheets lie beside it. */
export { type FontFace, fontCss, fontFaces } from './fonts.ts';
export { policySlot } from './policy.ts';
export { type Say, sayer } from './say.ts';
