/** A script for the browser with all that it imports, as one minified text: `site/compile.ts` makes it. */
declare module '*?bundle' {
  const script: string;
  export default script;
}
