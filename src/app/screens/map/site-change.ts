import type { SiteKnowledge } from '../../../flow';

/** Hands over the parts of the site knowledge that the user changed. */
export type SiteChange = (part: Partial<SiteKnowledge>) => void;
