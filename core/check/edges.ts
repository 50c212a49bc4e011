import { wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Edge } from '../mass/index.js';

/** An edge that was painted otherwise than planned. */
export interface EdgeFinding {
  regions: [number, number];
  planned: Edge['kind'];
  painted: Edge['kind'];
  /** `soften` a border that came out too sharp; `firm` one that was lost or softened. */
  action: 'soften' | 'firm';
  /** Pixels along it. */
  lengthPx: number;
  reasons: Reason[];
}

const SHARPNESS: Record<Edge['kind'], number> = { hard: 2, soft: 1, lost: 0 };

/**
 * Edges that were painted otherwise than planned, longest first. Edges beside a mass that is to come are left out.
 *
 * Reasons: `check.edge-too-hard` { width }, `check.edge-too-soft` { width }: how broad the painted step is, pixels.
 *
 * @param planned,painted edges of the same masses (`edgesOf` of the photo, or what the painter says, and `edgesOf` of the painting)
 * @param toCome regions that are not painted yet
 */
export function edgeFindings(
  planned: readonly Edge[],
  painted: readonly Edge[],
  toCome: readonly number[] = [],
): EdgeFinding[] {
  if (!Array.isArray(planned)) throw wrongType('planned', planned, 'an array of edges');
  if (!Array.isArray(painted)) throw wrongType('painted', painted, 'an array of edges');
  const ahead = new Set(toCome);
  const key = ([a, b]: readonly [number, number]): string => `${Math.min(a, b)} ${Math.max(a, b)}`;
  const found = new Map(painted.map((edge: Edge) => [key(edge.regions), edge]));
  const findings: EdgeFinding[] = [];
  for (const { regions, kind } of planned as readonly Edge[]) {
    const edge = found.get(key(regions));
    if (!edge || edge.kind === kind || regions.some((region) => ahead.has(region))) continue;
    const harder = SHARPNESS[edge.kind] > SHARPNESS[kind];
    findings.push({
      regions: [...regions],
      planned: kind,
      painted: edge.kind,
      action: harder ? 'soften' : 'firm',
      lengthPx: edge.lengthPx,
      reasons: [
        reason(harder ? 'check.edge-too-hard' : 'check.edge-too-soft', {
          width: Math.round(10 * edge.widthPx) / 10,
        }),
      ],
    });
  }
  return findings.sort((a, b) => b.lengthPx - a.lengthPx);
}
