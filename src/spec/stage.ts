/** Stages of the work, in order. */
export const WORK_STAGES = ['timber-bought', 'cut', 'glued', 'finished', 'delivered', 'accepted'] as const;
export type WorkStageWord = (typeof WORK_STAGES)[number];

/** How far a proposal is, in order: the words of the record. */
export const STAGES = ['enquiry', 'proposed', 'approved', 'ordered', ...WORK_STAGES] as const;
export type StageWord = (typeof STAGES)[number];

/** True where `stage` is reached once `reached` is. */
export const isReached = (stage: StageWord, reached: StageWord): boolean => STAGES.indexOf(stage) <= STAGES.indexOf(reached);
