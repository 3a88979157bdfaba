/** What a check can say, mildest first. */
export const levels = ['clear', 'caution', 'stop'] as const;
export type Level = (typeof levels)[number];
