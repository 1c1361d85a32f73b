/**
 * The shapes of a plan and of the proof, as the server's contract gives them.
 * Types only: lengths in decimal feet, angles in degrees counter-clockwise from east, y northward.
 *
 * @typedef {[number, number]} Point
 * @typedef {{id: string, a: Point, b: Point, thickness?: number, height?: number | null}} Wall
 * @typedef {{id: string, wall: string, kind: "window" | "door" | "cased", offset: number, width: number, sill?: number,
 *   head?: number, glazed?: boolean | null, panes?: number, operable?: boolean | null, hinge?: "a" | "b" | null,
 *   leaf?: "swing" | "slide" | "overhead" | "fixed", exterior?: boolean | null}} Opening
 * @typedef {"obstruction" | "light_switch" | "chime" | "supply_register" | "bed" | "outlet"} FixtureKind
 * @typedef {{id: string, kind: FixtureKind, polygon?: Point[] | null, base?: number, top?: number | null,
 *   at?: Point | null, height?: number | null, label?: string}} Fixture
 * @typedef {{id: string, name: string, use?: string, at: Point}} Room
 * @typedef {{id: string, kind: string, at: Point, height?: number | null, facing?: number | null, mount?: string | null,
 *   serves?: string[], range?: number | null, view_angle?: number | null, cable?: string | null, label?: string | null,
 *   note?: string | null}} Device
 * @typedef {{id: string, name: string, elevation?: number, ceiling?: number, walls?: Wall[], openings?: Opening[],
 *   fixtures?: Fixture[], rooms?: Room[], devices?: Device[]}} Level
 * @typedef {{id: string, at: Point, from: string, to: string}} Riser
 * @typedef {{format: "studbay-plan/1", name: string, units?: "imperial" | "metric", site?: Record<string, string>,
 *   levels: Level[], risers?: Riser[], practice?: Record<string, unknown>}} Plan
 * @typedef {"walls" | "openings" | "fixtures" | "rooms" | "devices"} Family
 * @typedef {Wall | Opening | Fixture | Room | Device} Thing
 *
 * @typedef {"covered" | "partial" | "uncovered"} Status
 * @typedef {{device: string, move: Point, words: string}} Mend
 * @typedef {{id: string, opening: string, level: string, room: string | null, area_sqft: number, status: Status,
 *   fractions: Record<string, number>, best: {device: string, fraction: number, farthest_ft: number} | null, why: string,
 *   segment: [Point, Point], sill: number, head: number, stretches: [number, number][], gaps: Point[][],
 *   distances?: Record<string, number>, mend?: Mend | null}} Pane
 * @typedef {"must" | "should" | "note"} Severity
 * @typedef {{rule: string, severity: Severity, things: string[], message: string, source: string}} Finding
 * @typedef {{id: string, name: string, level: string, area_sqft: number, motion_fraction: number,
 *   motions: Record<string, number>, outline?: Point[][], use?: string}} RoomAnswer
 * @typedef {{panes: number, covered: number, partial: number, uncovered: number, must: number, should: number,
 *   note: number}} Summary
 * @typedef {{plan: string, panes: Pane[], rooms: RoomAnswer[], motions: {id: string, level: string, area_sqft: number, outline?: Point[][]}[],
 *   findings: Finding[], summary: Summary, levels?: {id: string, faces: Point[][]}[]}} CheckAnswer
 *
 * @typedef {(string | number)[]} Shape
 * @typedef {{kind: string, name: string, abbreviation: string, words: string, mount: string, height: number | null,
 *   cable: string | null, symbol: Shape[], faces: boolean, located_by_others: boolean}} DeviceKind
 * @typedef {{key: string, default: number | string | number[], unit: string, words: string, source: string, low: number,
 *   high: number, choices: string[], kind: "number" | "choice" | "word" | "numbers", heading: string}} DesignValue
 * @typedef {{key: string, words: string}} Choice
 * @typedef {{sets: (Choice & {about: string})[], papers: Choice[], scales: Choice[],
 *   habits: (Choice & {units: string, paper: string})[]}} SheetChoices
 * @typedef {{practice: DesignValue[], device_kinds: DeviceKind[], sheets: SheetChoices}} Tables
 */

export {};
