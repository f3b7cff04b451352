/** Id of the word that opens the lessons: the focus goes back there. */
export const LESSONS_WORD = 'lessons-word'
