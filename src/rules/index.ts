// The plain list of rules. Their order has no meaning; diagnostics are sorted by place.

import parameterOfOtherQuantity from './across/parameter-of-other-quantity.js';
import sameDigitsOtherUnit from './across/same-digits-other-unit.js';
import sameSignOtherState from './across/same-sign-other-state.js';
import sameWordsOtherEffect from './across/same-words-other-effect.js';
import serialsOverlap from './across/serials-overlap.js';
import toldAlike from './across/told-alike.js';
import valueDiffersElsewhere from './across/value-differs-elsewhere.js';
import valueUnlikeSiblings from './across/value-unlike-siblings.js';
import adjusterCancelsOut from './adjusters/adjuster-cancels-out.js';
import adjusterCannotHelp from './adjusters/adjuster-cannot-help.js';
import adjusterCannotTurn from './adjusters/adjuster-cannot-turn.js';
import adjusterReachShort from './adjusters/adjuster-reach-short.js';
import adjusterStartsOutside from './adjusters/adjuster-starts-outside.js';
import adjusterStepOverWindow from './adjusters/adjuster-step-over-window.js';
import adjusterWithoutDirection from './adjusters/adjuster-without-direction.js';
import brokenSensorAdjusted from './adjusters/broken-sensor-adjusted.js';
import sideNotTurned from './adjusters/side-not-turned.js';
import turnWithoutViewpoint from './adjusters/turn-without-viewpoint.js';
import watchNotMoved from './adjusters/watch-not-moved.js';
import serialsDoNotMeet from './applicability/serials-do-not-meet.js';
import cropNumberImpossible from './crops/crop-number-impossible.js';
import cropUnlikeStandard from './crops/crop-unlike-standard.js';
import argumentTwice from './derived/argument-twice.js';
import derivedLimitsIdleInUse from './derived/derived-limits-idle-in-use.js';
import derivedLimitsImpossible from './derived/derived-limits-impossible.js';
import derivedLimitsNeverFail from './derived/derived-limits-never-fail.js';
import derivedLimitsTighter from './derived/derived-limits-tighter.js';
import derivedWithoutValue from './derived/derived-without-value.js';
import worksheetLimitsImpossible from './derived/worksheet-limits-impossible.js';
import worksheetLimitsNeverFail from './derived/worksheet-limits-never-fail.js';
import cropNumberOfOtherQuantity from './dimensions/crop-number-of-other-quantity.js';
import issuedToUnknownUnit from './fleet/issued-to-unknown-unit.js';
import serialDigitsDiffer from './fleet/serial-digits-differ.js';
import serialUsedTwice from './fleet/serial-used-twice.js';
import unitWithoutProcedure from './fleet/unit-without-procedure.js';
import answersAlike from './flow/answers-alike.js';
import anyOrderOfOne from './flow/any-order-of-one.js';
import branchNeverTaken from './flow/branch-never-taken.js';
import choicesAlike from './flow/choices-alike.js';
import deadlineWithoutBranch from './flow/deadline-without-branch.js';
import draftRun from './flow/draft-run.js';
import failedExpectationAtDone from './flow/failed-expectation-at-done.js';
import failedExpectationGoesOn from './flow/failed-expectation-goes-on.js';
import neverDone from './flow/never-done.js';
import otherwiseWithoutExpect from './flow/otherwise-without-expect.js';
import questionWithOneAnswer from './flow/question-with-one-answer.js';
import requiredTwice from './flow/required-twice.js';
import unreachableStep from './flow/unreachable-step.js';
import withdrawnRun from './flow/withdrawn-run.js';
import actInHazard from './hazards/act-in-hazard.js';
import cautionBehindStep from './hazards/caution-behind-step.js';
import hazardNotListed from './hazards/hazard-not-listed.js';
import hazardWithoutRule from './hazards/hazard-without-rule.js';
import severityBelowHarm from './hazards/severity-below-harm.js';
import typedSignalWord from './hazards/typed-signal-word.js';
import accuracyFinerThanResolution from './instruments/accuracy-finer-than-resolution.js';
import countsDoNotFit from './instruments/counts-do-not-fit.js';
import otherInstrumentSaid from './instruments/other-instrument-said.js';
import endsLookMistyped from './limits/ends-look-mistyped.js';
import instrumentNotGoodEnough from './limits/instrument-not-good-enough.js';
import instrumentOfOtherQuantity from './limits/instrument-of-other-quantity.js';
import limitsOfOneValue from './limits/limits-of-one-value.js';
import limitsOutsideInstrument from './limits/limits-outside-instrument.js';
import limitsOutsideSensorBand from './limits/limits-outside-sensor-band.js';
import nominalOutsideLimits from './limits/nominal-outside-limits.js';
import percentWithoutSign from './limits/percent-without-sign.js';
import resolutionTooCoarse from './limits/resolution-too-coarse.js';
import valueWithoutInstrument from './limits/value-without-instrument.js';
import nameUsedTwice from './names/name-used-twice.js';
import sideWrittenOut from './names/side-written-out.js';
import softwareOutOfOrder from './names/software-out-of-order.js';
import termTwoMeanings from './names/term-two-meanings.js';
import toolNotListed from './names/tool-not-listed.js';
import unknownStepInText from './names/unknown-step-in-text.js';
import adjustWithoutReading from './order/adjust-without-reading.js';
import anyOrderUnlikeSteps from './order/any-order-unlike-steps.js';
import backIntoStep from './order/back-into-step.js';
import cannotMoveHere from './order/cannot-move-here.js';
import derivedFromStale from './order/derived-from-stale.js';
import endStateNotMet from './order/end-state-not-met.js';
import failedValueAtDone from './order/failed-value-at-done.js';
import failingReadingWithoutBranch from './order/failing-reading-without-branch.js';
import givesNotLeft from './order/gives-not-left.js';
import instrumentNeedsNotMet from './order/instrument-needs-not-met.js';
import instrumentOutOfReach from './order/instrument-out-of-reach.js';
import instrumentUnlikeSteps from './order/instrument-unlike-steps.js';
import loopWithoutBound from './order/loop-without-bound.js';
import loopWithoutElse from './order/loop-without-else.js';
import needNotMet from './order/need-not-met.js';
import notProved from './order/not-proved.js';
import notRestored from './order/not-restored.js';
import physicsContradicts from './order/physics-contradicts.js';
import readAgainAlike from './order/read-again-alike.js';
import readInOtherState from './order/read-in-other-state.js';
import readingUnsureWithoutBranch from './order/reading-unsure-without-branch.js';
import requirementLost from './order/requirement-lost.js';
import requirementUnlikeSteps from './order/requirement-unlike-steps.js';
import requiresNotMetAtRun from './order/requires-not-met-at-run.js';
import rowsOutOfReach from './order/rows-out-of-reach.js';
import ruleUnlikeProcedures from './order/rule-unlike-procedures.js';
import safetyRuleBroken from './order/safety-rule-broken.js';
import sentToWrongAdjuster from './order/sent-to-wrong-adjuster.js';
import setsNothingNew from './order/sets-nothing-new.js';
import sideNotRead from './order/side-not-read.js';
import staleValueAtDone from './order/stale-value-at-done.js';
import startImpossible from './order/start-impossible.js';
import startUnlikeProcedures from './order/start-unlike-procedures.js';
import stateNotPossible from './order/state-not-possible.js';
import triesWithoutEnd from './order/tries-without-end.js';
import unchangedRuleBroken from './order/unchanged-rule-broken.js';
import unsafeEnd from './order/unsafe-end.js';
import vacuousRule from './order/vacuous-rule.js';
import wrongPlaceAtRun from './order/wrong-place-at-run.js';
import peopleNotNeeded from './people/people-not-needed.js';
import placeNotTyped from './people/place-not-typed.js';
import tooFewPeople from './people/too-few-people.js';
import twoPlacesInStep from './people/two-places-in-step.js';
import brokenTable from './prose/broken-table.js';
import conversionDiffers from './prose/conversion-differs.js';
import headingLikeStep from './prose/heading-like-step.js';
import moreRowsSaid from './prose/more-rows-said.js';
import nameContradictsParameter from './prose/name-contradicts-parameter.js';
import plainNumber from './prose/plain-number.js';
import proseContradictsNumber from './prose/prose-contradicts-number.js';
import editedAfterVerification from './review/edited-after-verification.js';
import machineNotVerified from './review/machine-not-verified.js';
import neverReviewed from './review/never-reviewed.js';
import reviewImpossible from './review/review-impossible.js';
import reviewOverdue from './review/review-overdue.js';
import reviewTooLate from './review/review-too-late.js';
import verificationWithoutContent from './review/verification-without-content.js';
import verifiedElsewhere from './review/verified-elsewhere.js';
import type { AnyRule } from './rule.js';
import actAgainstEffect from './text/act-against-effect.js';
import actNotAnOrder from './text/act-not-an-order.js';
import forbiddenWord from './text/forbidden-word.js';
import longSentence from './text/long-sentence.js';
import markMisspelt from './text/mark-misspelt.js';
import otherSideSaid from './text/other-side-said.js';
import participleTwoWays from './text/participle-two-ways.js';
import passiveOrder from './text/passive-order.js';
import repeatWithoutCount from './text/repeat-without-count.js';
import screenLabelMisspelt from './text/screen-label-misspelt.js';
import sideNotSaid from './text/side-not-said.js';
import termTwoWays from './text/term-two-ways.js';
import twoActsInStep from './text/two-acts-in-step.js';
import unfinishedText from './text/unfinished-text.js';
import vagueMeasure from './text/vague-measure.js';
import vagueWord from './text/vague-word.js';
import holdLongerThanTime from './times/hold-longer-than-time.js';
import holdOfMinutes from './times/hold-of-minutes.js';
import timeOfNothing from './times/time-of-nothing.js';
import timesDoNotAddUp from './times/times-do-not-add-up.js';
import waitsExceedTime from './times/waits-exceed-time.js';
import answersExchanged from './translations/answers-exchanged.js';
import termNotTranslated from './translations/term-not-translated.js';
import translatedAlike from './translations/translated-alike.js';
import translatedTwoWays from './translations/translated-two-ways.js';
import translationDiffers from './translations/translation-differs.js';
import translationLacksPart from './translations/translation-lacks-part.js';
import translationLikeOriginal from './translations/translation-like-original.js';
import translationSaysOpposite from './translations/translation-says-opposite.js';
import unusedAdjuster from './unused/unused-adjuster.js';
import unusedHazard from './unused/unused-hazard.js';
import unusedInBook from './unused/unused-in-book.js';
import unusedTool from './unused/unused-tool.js';
import unusedValue from './unused/unused-value.js';
import unusedWorksheet from './unused/unused-worksheet.js';

export const rules: readonly AnyRule[] = [
  cropNumberImpossible,
  sameDigitsOtherUnit,
  adjusterWithoutDirection,
  turnWithoutViewpoint,
  brokenSensorAdjusted,
  watchNotMoved,
  argumentTwice,
  answersAlike,
  anyOrderOfOne,
  failedExpectationAtDone,
  draftRun,
  otherwiseWithoutExpect,
  failedExpectationGoesOn,
  nameUsedTwice,
  sideWrittenOut,
  softwareOutOfOrder,
  termTwoMeanings,
  unknownStepInText,
  givesNotLeft,
  conversionDiffers,
  choicesAlike,
  actAgainstEffect,
  translationSaysOpposite,
  headingLikeStep,
  moreRowsSaid,
  brokenTable,
  nameContradictsParameter,
  reviewTooLate,
  unfinishedText,
  holdLongerThanTime,
  holdOfMinutes,
  translationLikeOriginal,
  translatedAlike,
  translatedTwoWays,
  answersExchanged,

  cropUnlikeStandard,
  accuracyFinerThanResolution,
  countsDoNotFit,
  parameterOfOtherQuantity,
  valueDiffersElsewhere,
  valueUnlikeSiblings,
  triesWithoutEnd,
  repeatWithoutCount,
  verifiedElsewhere,
  endsLookMistyped,
  sameSignOtherState,
  sameWordsOtherEffect,
  serialsOverlap,
  serialsDoNotMeet,
  toldAlike,
  timesDoNotAddUp,
  peopleNotNeeded,
  placeNotTyped,
  adjusterCancelsOut,
  adjusterCannotHelp,
  adjusterCannotTurn,
  adjusterReachShort,
  adjusterStartsOutside,
  adjusterStepOverWindow,
  sideNotTurned,
  derivedLimitsIdleInUse,
  derivedLimitsImpossible,
  derivedLimitsNeverFail,
  derivedLimitsTighter,
  derivedWithoutValue,
  worksheetLimitsImpossible,
  worksheetLimitsNeverFail,
  cropNumberOfOtherQuantity,
  branchNeverTaken,
  neverDone,
  questionWithOneAnswer,
  requiredTwice,
  unreachableStep,
  withdrawnRun,
  actInHazard,
  cautionBehindStep,
  hazardNotListed,
  instrumentNotGoodEnough,
  instrumentOfOtherQuantity,
  otherInstrumentSaid,
  limitsOfOneValue,
  limitsOutsideInstrument,
  limitsOutsideSensorBand,
  nominalOutsideLimits,
  percentWithoutSign,
  resolutionTooCoarse,
  timeOfNothing,
  valueWithoutInstrument,
  adjustWithoutReading,
  backIntoStep,
  cannotMoveHere,
  derivedFromStale,
  endStateNotMet,
  failedValueAtDone,
  failingReadingWithoutBranch,
  instrumentNeedsNotMet,
  instrumentOutOfReach,
  loopWithoutBound,
  loopWithoutElse,
  instrumentUnlikeSteps,
  requirementUnlikeSteps,
  ruleUnlikeProcedures,
  startUnlikeProcedures,
  anyOrderUnlikeSteps,
  needNotMet,
  notProved,
  notRestored,
  physicsContradicts,
  readAgainAlike,
  readInOtherState,
  requirementLost,
  requiresNotMetAtRun,
  safetyRuleBroken,
  sentToWrongAdjuster,
  staleValueAtDone,
  startImpossible,
  stateNotPossible,
  setsNothingNew,
  rowsOutOfReach,
  sideNotRead,
  unchangedRuleBroken,
  unsafeEnd,
  vacuousRule,
  wrongPlaceAtRun,
  tooFewPeople,
  plainNumber,
  proseContradictsNumber,
  machineNotVerified,
  neverReviewed,
  reviewImpossible,
  reviewOverdue,
  actNotAnOrder,
  forbiddenWord,
  longSentence,
  markMisspelt,
  screenLabelMisspelt,
  otherSideSaid,
  participleTwoWays,
  passiveOrder,
  sideNotSaid,
  termTwoWays,
  twoActsInStep,
  vagueMeasure,
  vagueWord,
  termNotTranslated,
  translationDiffers,
  translationLacksPart,
  unitWithoutProcedure,
  issuedToUnknownUnit,
  serialUsedTwice,
  serialDigitsDiffer,
  editedAfterVerification,
  verificationWithoutContent,
  twoPlacesInStep,
  waitsExceedTime,
  deadlineWithoutBranch,
  typedSignalWord,
  hazardWithoutRule,
  severityBelowHarm,
  readingUnsureWithoutBranch,
  toolNotListed,
  unusedTool,
  unusedAdjuster,
  unusedHazard,
  unusedInBook,
  unusedValue,
  unusedWorksheet,
];
