import { lessonNeeds, parseLesson, type Lesson, type LessonNeeds } from '../shared/core.js';
import { leansOf, requiredCounts } from './board-form.js';

/** What the page asks for by attributes or by a lesson. */
export interface RulesGiven {
  lesson: string | Lesson;
  required: string | null;
  leans: string;
  tolerance?: number;
  reveal: 'always' | 'submit' | 'never';
  locked: boolean;
}

/** The rules that hold: those of the lesson where there is one, else those of the attributes. */
export interface Rules {
  /** The lesson's title; empty without one. */
  title: string;
  /** The lesson's task, plain text; empty without one. */
  task: string;
  /** The lesson's bands. */
  bands?: Lesson['bands'];
  /** Whether the page says how many swatches it wants. */
  counts: boolean;
  needs(bands: number): LessonNeeds;
  tolerance?: number;
  reveal: 'always' | 'submit' | 'never';
  locked: boolean;
  /** Names in the attribute `leans` that are none. */
  unknownLeans: string[];
  /** Why the lesson cannot be used, if it cannot; the attributes hold then. */
  trouble?: unknown;
}

/** A lesson's rules; a `lesson` that is no JSON is the title of the lesson that the attributes make. */
export function rulesOf(given: RulesGiven): Rules {
  const { lesson: written, required, tolerance, reveal, locked } = given;
  const { leans, unknown } = leansOf(given.leans);
  const byAttributes: Rules = {
    title: '',
    task: '',
    counts: required !== null,
    needs: (bands) => ({ required: requiredCounts(required, bands), leans }),
    ...(tolerance !== undefined && tolerance >= 0 && tolerance <= 100 ? { tolerance } : {}),
    reveal,
    locked,
    unknownLeans: unknown,
  };
  if (typeof written === 'string' && !written.trim().startsWith('{'))
    return { ...byAttributes, title: written.trim().slice(0, 300) };
  try {
    const lesson = parseLesson(written);
    const needs = lessonNeeds(lesson);
    return {
      title: lesson.title,
      task: lesson.task,
      bands: lesson.bands,
      counts: true,
      needs: () => needs,
      ...(lesson.tolerance === undefined ? {} : { tolerance: lesson.tolerance }),
      reveal: lesson.reveal ?? 'submit',
      locked: true,
      unknownLeans: unknown,
    };
  } catch (trouble) {
    return { ...byAttributes, trouble };
  }
}
