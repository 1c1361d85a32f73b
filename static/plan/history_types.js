/**
 * The shapes of a plan's history, of two revisions compared and of what was built, as the server gives them.
 * Types only: lengths in decimal feet.
 *
 * @import { Point } from "./types.js"
 *
 * @typedef {{revision: number, name: string, saved: string, things: number, mark: string | null, approved: boolean}} RevisionLine
 * @typedef {{by: string, on: string | null, words: string, recorded: string}} ApprovalLine
 * @typedef {{revision: number, mark: string, words: string, by: string, named: string, approval: ApprovalLine | null}} NamedRevision
 * @typedef {{turn: number, revision: number, what: "named" | "approved" | "withdrawn", mark: string, words: string,
 *   by: string, on: string | null, recorded: string}} HistoryEntry
 * @typedef {{edition: number, approved: number | null, revisions: NamedRevision[], entries: HistoryEntry[]}} HistoryAnswer
 * @typedef {{revision: number, approved: number | null, changes: number, words: string, printed: string}} Standing
 *
 * @typedef {{number: number, what: "added" | "moved" | "changed" | "renamed" | "removed", family: string, id: string,
 *   was_id: string | null, name: string, level: string | null, was_level: string | null, words: string, moved_ft: number,
 *   moves: [Point, Point][], place: Point[] | null, was_place: Point[] | null}} Change
 * @typedef {{level: string, path: string, numbers: number[], words: string, at: Point}} Cloud
 * @typedef {{from: number, to: number}} Both
 * @typedef {{status: string, device: string | null, fraction: number, farthest_ft: number | null} | null} PaneProof
 * @typedef {{changes: Change[], clouds: Cloud[], words: string, summary: Record<string, number>,
 *   levels: {id: string, name: string, changes: number[]}[],
 *   panes: {id: string, opening: string, level: string, from: PaneProof, to: PaneProof}[],
 *   coverage: Record<"panes" | "covered" | "partial" | "uncovered", Both>,
 *   cable: {cable: string, pulls: Both, cut_ft: Both, bought_ft: Both}[],
 *   boxes: {cable: string, size_ft: number, from: number, to: number}[], zones: Both,
 *   battery: {can: string, with_margin_ah: {from: number | null, to: number | null}}[],
 *   findings: {new: {severity: string, message: string, things: string[]}[], gone: {severity: string, message: string, things: string[]}[]}}} Comparison
 *
 * @typedef {{device: string, as_designed?: boolean, at?: Point | null, height?: number | null, cable_ft?: number | null,
 *   zone?: string, terminal?: string, note?: string, on?: string | null, by?: string}} BuiltEntry
 * @typedef {{format: "studbay-as-built/1", plan?: string, entries: BuiltEntry[]}} BuiltRecord
 * @typedef {{device: string, name: string, level: string | null, kind: string | null,
 *   designed: {at: Point | null, height_ft: number | null, cable: string | null, cut_ft: number | null, zone: number | null},
 *   recorded: boolean, differences: {field: string, words: string, designed: string, built: string}[]}} BuiltLine
 * @typedef {{edition: number, revision: number | null, saved: string | null, record: BuiltRecord, devices: BuiltLine[]}} AsBuiltAnswer
 */

export {};
