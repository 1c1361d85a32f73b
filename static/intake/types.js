/** The shapes of what the server tells of a foreign file. */

/** @typedef {"walls" | "centrelines" | "doors" | "windows" | "names" | "ignore"} Role */
/** @typedef {{lines: number, arcs: number, areas: number, texts: number, blocks: number, other: number}} Counts */
/** @typedef {{name: string, role: Role, hidden: boolean, counts: Counts}} Layer */
/** @typedef {{name: string, elevation: number, counts: Record<string, number>}} Storey */
/** @typedef {{said: string | null, likely: string | null, proposed: string | null, ask: boolean, sizes_ft: Record<string, [number, number]>}} Units */
/** @typedef {{number: number, title: string, name: string, box: number[], size_ft: [number, number], strokes: number, level: number | null, why: string}} Drawing */
/** @typedef {{layer: string, kind: string, count: number, reason: string}} UnreadLine */
/** @typedef {{kind: "dxf" | "ifc", layers: Layer[], storeys: Storey[], units: Units, picture: string, frame: [number, number, number], drawings: Drawing[], notes: string[], unread: UnreadLine[]}} Survey */
/** @typedef {{units: string, size_ft: [number, number], read: Record<string, number>, notes: string[], unread: UnreadLine[], drawings: Drawing[]}} Report */
/** @typedef {{plan: any, report: Report, picture: string}} DrawnPlan */

export {};
