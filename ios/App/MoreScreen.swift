import FieldModel
import SwiftUI

/// More sightings: which kind.
struct MoreScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            Named(.moreSightings, size: .heading)
            ForEach(model.kinds, id: \.self) { kind in
                Outlined(kind.label, least: Sizes.walking) { model.openPad(.asks(.init(kind))) }
            }
            Outlined(.goBack) { model.shutPad() }
        } foot: {
            EmptyView()
        }
    }
}

/// One question of a sighting.
struct AskScreen: View {
    let asking: Draft.Asking
    let question: Draft.Question
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            Named(question.label, asking.answers.first ?? "", size: .heading)
            if model.asksBearing { Caution() }
            if question.isTyped {
                if model.asksBearing { PhoneHeading() }
                TypedFigures(unit: question.unit)
                PadKeys()
            } else {
                AskChoices(asking: asking, question: question)
            }
            Outlined(.goBack) { model.shutPad() }
        } foot: {
            if question.isTyped {
                Primary(asking.isLast ? .weighIn : .noteIt) { model.finishPad() }
            } else if question == .several, !asking.several.isEmpty {
                Primary(.noteIt) { model.answer("") }
            }
        }
    }
}

extension Draft.Kind {
    /// What it is called in the list; where one question is all, that question.
    var label: Labels {
        switch self {
        case .lineRun: .readTheLine
        case .oneOf: .oneOf
        case .trip: .tripMeter
        case .here: .whatIsHere
        case .side: .onWhichSide
        case .slope: .groundTowards
        case .height: .altimeter
        case .heightSet: .altimeterSet
        case .aspect: .slopeFallsTo
        case .landform: .landformAt
        case .angle: .angleBetween
        case .distance: .distanceTo
        case .running: .runningFix
        case .paces: .pacesFrom
        }
    }
}

extension Draft.Question {
    fileprivate var label: Labels {
        switch self {
        case .lineBearing: .alongTheLine
        case .itsBearing: .bearingToIt
        case .groundBearing, .landformBearing: .towardsWhichBearing
        case .fallsBearing: .slopeFallsTo
        case .firstBearing: .firstBearing
        case .secondBearing: .secondBearing
        case .runMetres: .runMetres
        case .runTowards: .runTowards
        case .landformMetres: .howFarAbout
        case .whereSet: .whereSet
        case .setTo: .setTo
        case .hoursSince: .hoursSince
        case .metres: .howManyMetres
        case .figure: .itsLastFigure
        case .metresAboveSea: .metresAboveSea
        case .degrees: .howManyDegrees
        case .doublePaces: .howManyDoublePaces
        case .landmark: .whichLandmark
        case .left: .leftLandmark
        case .right: .rightLandmark
        case .several: .whichOfThese
        case .from: .fromWhichPoint
        case .towards: .towardsWhichPoint
        case .facing: .facingWhichPoint
        case .whatIsHere: .whatIsHere
        case .side: .sideOfIt
        case .ground: .groundTowards
        case .landform: .whichLandform
        }
    }

    /// What stands beside figures that are no bearing.
    fileprivate var unit: String {
        switch self {
        case .metres, .metresAboveSea, .setTo, .landformMetres, .runMetres: "\u{a0}\(Labels.metres.text)"
        case .hoursSince: "\u{a0}\(Labels.hours.text)"
        case .degrees: "\u{a0}\(Labels.degrees.text)"
        default: "\u{a0}\(Labels.doublePaces.text)"
        }
    }
}
