/**
 * What the parts of the page share; types only, start.js puts it together.
 *
 * @import { Autosave } from "./server/autosave.js"
 * @import { Proof } from "./server/proof.js"
 * @import { Trial } from "./server/trial.js"
 * @import { PlanStore } from "./plan/store.js"
 * @import { Selection } from "./plan/selection.js"
 * @import { Underlays } from "./server/underlays.js"
 * @import { UnderlayPicture } from "./drawing/underlay.js"
 * @import { Tables } from "./plan/types.js"
 * @import { Drawing } from "./drawing/drawing.js"
 * @import { Marks } from "./drawing/marks.js"
 * @import { View } from "./drawing/view.js"
 * @import { Pointer } from "./gestures/pointer.js"
 * @import { Tools } from "./gestures/tools.js"
 *
 * @typedef {Object} Desk
 * @property {string} planId
 * @property {Tables} tables
 * @property {PlanStore} store
 * @property {Selection} selection
 * @property {Autosave} autosave
 * @property {Proof} proof
 * @property {Trial | undefined} trial made by the first gesture that tries a device: see trialOf
 * @property {View} view
 * @property {Drawing} drawing
 * @property {Marks | undefined} marks made by the first gesture that shows some: see marksOf
 * @property {Pointer} pointer
 * @property {Tools} tools
 * @property {Underlays} underlays
 * @property {UnderlayPicture | undefined} picture the one behind the drawing, where one lies there: see pictureBehind
 * @property {Promise<void>} opened settles when the page is usable: what was not needed until then is fetched now
 * @property {() => void} askLength opens the field for a length that the gesture asks for
 * @property {(words: string, urgent?: boolean) => void} say told on the page and to screen readers
 */

export {};
