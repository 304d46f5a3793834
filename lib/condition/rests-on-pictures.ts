import type { Assessment } from './types'

/** Whether infrared alone speaks for a splice as a whole, because resistance does not cover every interface. */
export const restsOnPictures = ({ fusion }: Pick<Assessment, 'fusion'>): boolean => fusion?.sources.length === 1 && fusion.sources[0]?.source === 'infrared'
