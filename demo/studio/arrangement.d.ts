export interface Panel {
  id: string;
  columns: number;
  rows: number;
  away?: boolean;
}
export interface Place {
  id: string;
  columns: number;
  rows: number;
  away: boolean;
}
export type Arrangement = Place[];
export const COLUMNS: { least: number; most: number };
export const ROWS: { least: number; most: number; asContent: number };
export function proposed(panels: readonly Panel[]): Arrangement;
export function read(text: string | null, panels: readonly Panel[]): Arrangement;
export function write(arrangement: Arrangement): string;
export function resized(
  arrangement: Arrangement,
  id: string,
  size: { columns?: number; rows?: number },
): Arrangement;
export function moved(arrangement: Arrangement, id: string, way: -1 | 1): Arrangement;
export function putAway(arrangement: Arrangement, id: string): Arrangement;
export function takenOut(arrangement: Arrangement, id: string): Arrangement;
export function halves(arrangement: Arrangement): Set<string>;
