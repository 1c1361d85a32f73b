/**
 * The shapes of a protection answer: arming states, entry paths, ways in and sound.
 * Types only: lengths in decimal feet, levels in dBA.
 *
 * @import { Point } from "./types.js"
 *
 * @typedef {"stay" | "away"} ArmingState
 * @typedef {"at the opening" | "inside" | "nothing"} Watch
 * @typedef {{id: string, level: string, room: string | null, kind: string, segment: [Point, Point], opens: boolean,
 *   glass: boolean, contacts: string[], listeners: string[], deaf: string[], motions: string[],
 *   gaps: ("opened" | "broken" | "open")[], stay: Watch, away: Watch}} OpeningStates
 * @typedef {{id: string, level: string, name: string, openings: string[], area_sqft: number, motion_fraction: number,
 *   stay: string[], away: string[], lost_in_stay_sqft: number}} RoomStates
 * @typedef {{devices: string[], floor_sqft: number, openings: string[], rooms: string[], words: string}} StayLoses
 * @typedef {{level: string, before_ft: number, points: Point[]}} Leg
 * @typedef {{feet: number, legs: Leg[]}} Walked
 * @typedef {Walked & {door: string, keypad: string, seconds: number, delay: number, in_time: boolean,
 *   followers: string[], words: string}} EntryPath
 * @typedef {{device: string, how: string, feet: number}} Notice
 * @typedef {{first: Notice | null, second: Notice | null, unseen_ft: number, notices: Notice[]}} WalkStates
 * @typedef {Walked & {opening: string, goal: string, gaps: string[], stay: WalkStates, away: WalkStates}} WayIn
 * @typedef {{opening: string, state: ArmingState, goal: string, unseen_ft: number, words: string, source: string}} Unseen
 * @typedef {"wakes" | "heard awake" | "faint" | "silent"} Band
 * @typedef {{device: string, feet: number, loss_db: number, through: string[], dba: number}} SourceHeard
 * @typedef {{thing: string, level: string, at: Point, dba: number | null, band: Band, from: SourceHeard[]}} LevelHeard
 * @typedef {{device: string, level: string, at: Point, rated_dba: number, rings: {dba: number, radius_ft: number}[]}} SounderRings
 * @typedef {{beds: LevelHeard[], rooms: LevelHeard[], bands: {name: Band, from_dba: number | null}[], rings: SounderRings[],
 *   words: string}} Sound
 * @typedef {{states: {openings: OpeningStates[], rooms: RoomStates[], stay_loses: StayLoses, entries: EntryPath[]},
 *   ways_in: WayIn[], unseen: Unseen[], no_way: {opening: string, words: string}[], sound: Sound}} ProtectionAnswer
 */

export {};
