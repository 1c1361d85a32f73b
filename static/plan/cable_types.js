/**
 * The shapes of the cable's answer, as GET /api/plans/{id}/pulls gives it. Types only: decimal feet, z above the datum.
 *
 * @import { Point } from "./types.js"
 * @typedef {[number, number, number]} Spot
 * @typedef {{label: string, device: string, level: string, room: string | null, cable: string, route: Spot[] | null,
 *   measured_ft: number | null, cut_ft: number | null, kind: string, name: string, room_name: string,
 *   level_name: string, can: string | null, carries: string}} Pull
 * @typedef {{cable: string, size_ft: number, pulls: string[], used_ft: number, left_ft: number, box: string}} Box
 * @typedef {{pulls: number, measured_ft: number, cut_ft: number, bought_ft: number}} Total
 * @typedef {{proven: boolean, bound_ft: number, bound_boxes: number, too_long: string[]}} Packing
 * @typedef {{level: string | null, segment: [Point, Point], z: number, count: number, cables: Record<string, number>}} Bundle
 * @typedef {{number: number, can: string, type: string, words: string, pulls: string[], eol_ohms: number,
 *   resistor_at: string, loop_ohms: number | null, hot_loop_ohms: number | null}} Zone
 * @typedef {{label: string, device: string, milliamperes: number, one_way_ft: number, cool_volts: number | null,
 *   hot_volts: number | null, battery_volts: number | null, longest_ft: number | null, gauge_that_holds: number | null}} Feed
 * @typedef {{basis: string, standby_hours: number, alarm_minutes: number, source: string, edition: string, margin: number,
 *   standby_amperes: number, alarm_amperes: number, needed_ah: number, with_margin_ah: number, size_ah: number | null}} Battery
 * @typedef {{can: string, auxiliary_standby_ma: number, auxiliary_alarm_ma: number, auxiliary_limit_ma: number,
 *   siren_alarm_ma: number, siren_limit_ma: number, zones: number, inputs: number, battery: Battery}} Supply
 * @typedef {{where: string, thing: string, cables: Record<string, number>, area_sqin: number, hole_in: number,
 *   plates: string[], unknown: string[]}} Hole
 * @typedef {{pulls: Pull[], boxes: Box[], totals: Record<string, Total>, packing: Record<string, Packing>,
 *   bundles: Bundle[], zones: Zone[], zone_types: Record<string, string>, feeds: Feed[], supplies: Supply[],
 *   rough_in: {holes: Hole[], cautions: {words: string, source: string}[]}}} CableAnswer
 */

export {};
