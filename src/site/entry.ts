import { createApp } from 'astro/app/entrypoint';

/** Door of a compiled bundle: Astro's own application, not streaming, so that a page is one string. */
export const app = createApp({ streaming: false });
