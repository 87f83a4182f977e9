/** Puts boxes and lines on a sheet: the layered layout of elkjs, from the top down, lines at right angles. */
import type { ElkExtendedEdge, ElkNode } from 'elkjs/lib/elk-api.js';
import type { Box } from './boxes.js';
import type { Line } from './pieces.js';

export interface Place {
  readonly x: number;
  readonly y: number;
}

export interface Label {
  readonly text: string;
  readonly width: number;
  readonly height: number;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  /** By box id. */
  readonly boxes: ReadonlyMap<string, Place>;
  /** By line id: corners, where it leaves another line, and where its label begins. */
  readonly lines: ReadonlyMap<
    string,
    {
      readonly corners: readonly Place[];
      readonly joints: readonly Place[];
      readonly label: Place | undefined;
    }
  >;
}

const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.direction': 'DOWN',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.spacing.nodeNode': '14',
  'elk.spacing.edgeNode': '10',
  'elk.spacing.edgeEdge': '9',
  'elk.spacing.edgeLabel': '3',
  'elk.layered.spacing.nodeNodeBetweenLayers': '8',
  'elk.layered.spacing.edgeNodeBetweenLayers': '7',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '9',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.layered.edgeLabels.sideSelection': 'ALWAYS_DOWN',
  'elk.randomSeed': '1',
  'elk.spacing.componentComponent': '18',
};

/**
 * @param labels by line id
 * @param shape width over height of the sheet, for parts of a circuit that do not hang together
 */
export async function layOut(
  boxes: readonly Box[],
  lines: readonly Line[],
  labels: ReadonlyMap<string, Label>,
  shape: number,
): Promise<Sheet> {
  const { default: Elk } = (await import('elkjs/lib/elk.bundled.js')) as unknown as {
    default: new () => { layout(graph: ElkNode): Promise<ElkNode> };
  };
  const laid = await new Elk().layout({
    id: 'sheet',
    layoutOptions: { ...OPTIONS, 'elk.aspectRatio': String(shape) },
    children: boxes.map(({ piece, width, height, ports }) => ({
      id: piece.id,
      width,
      height,
      // What hangs on the battery comes first where the sheet is in several parts.
      layoutOptions: {
        'elk.portConstraints': 'FIXED_POS',
        ...(piece.kind === 'battery' ? { 'elk.priority': '1000' } : {}),
      },
      ports: ports.map(({ id, x, y, side }) => ({
        id,
        x,
        y,
        width: 0,
        height: 0,
        layoutOptions: { 'elk.port.side': side === 'top' ? 'NORTH' : 'SOUTH' },
      })),
    })),
    edges: lines.map(({ id, from, to }): ElkExtendedEdge => {
      const label = labels.get(id);
      return {
        id,
        sources: [from],
        targets: [to],
        ...(label === undefined ? {} : { labels: [{ id: `label ${id}`, ...label }] }),
      };
    }),
  });
  return {
    width: laid.width ?? 0,
    height: laid.height ?? 0,
    boxes: new Map((laid.children ?? []).map(({ id, x = 0, y = 0 }) => [id, { x, y }])),
    lines: new Map(
      ((laid.edges ?? []) as ElkExtendedEdge[]).map(
        ({ id, sections = [], labels: put, junctionPoints = [] }) => {
          const corners = sections.flatMap(({ startPoint, bendPoints = [], endPoint }) => [
            startPoint,
            ...bendPoints,
            endPoint,
          ]);
          const label = put?.[0];
          return [
            id,
            {
              corners,
              joints: junctionPoints,
              label: label === undefined ? undefined : { x: label.x ?? 0, y: label.y ?? 0 },
            },
          ];
        },
      ),
    ),
  };
}
