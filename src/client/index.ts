/** ClientView: the fields that may leave, by audience and level, in words. The wall stands here. */
export type { CareView, ClientView, DesignView, MaterialView, PriceView, RichRun, RichText, WishView } from './client-view.ts';
