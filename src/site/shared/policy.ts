/** Stands in a page's content-policy meta tag until `site/pages.ts` puts the policy with the digests of its own styles there. */
export const policySlot = 'leafwright-policy';
