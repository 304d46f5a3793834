/** Name of a survey for rows that name none and a file that says none either. */
export const surveyOfFile = (fileName: string): string => fileName.replace(/^.*[\\/]/, '').replace(/\.[^.]+$/, '').trim() || 'unnamed survey'
