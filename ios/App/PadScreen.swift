import FieldModel
import SwiftUI

/// The big pad: figures with their north beside them, keys for gloves.
struct PadScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            Text(verbatim: question).letters(.heading)
            if isSight { Caution() }
            if model.draft.pad == .met {
                MetField()
            } else {
                if isSight { PhoneHeading() }
                TypedFigures(unit: "\u{a0}\(Labels.doublePaces.text)")
                PadKeys()
            }
            Outlined(.goBack) { model.shutPad() }
        } foot: {
            switch model.draft.pad {
            case .sight: Primary(.weighIn) { model.finishPad() }
            case .walk: Primary(.walkIt) { model.finishPad() }
            case .detour: sides
            case .compassRead, .compassKnown: Primary(.noteIt) { model.finishPad() }
            case .met: Primary(.noteIt) { model.finishPad() }
            case .pace, .more, .asks, .hand, .parts, .adds, nil: Primary(.setPace) { model.finishPad() }
            }
        }
    }

    private var sides: some View {
        HStack(spacing: Sizes.between) {
            Primary(.left) { model.goRound(.left) }
            Primary(.right) { model.goRound(.right) }
        }
    }

    private var isSight: Bool { if case .sight = model.draft.pad { true } else { false } }

    private var question: String {
        switch model.draft.pad {
        case .sight(let landmark): Labels.bearingTo.text(landmark)
        case .walk: Labels.whichBearing.text
        case .detour: Labels.howFarOut.text
        case .met: Labels.whatWasMet.text
        case .compassRead: Labels.compassReads.text
        case .compassKnown: Labels.compassKnown.text
        case .pace, .more, .asks, .hand, .parts, .adds, nil: Labels.howManyPaces.text
        }
    }
}

/// The figures with what stands beside them: the north of a bearing, or a unit.
struct TypedFigures: View {
    let unit: String
    @Environment(FieldModel.self) private var model

    var body: some View {
        let bearing = model.draft.typed
        let figures = model.asksBearing ? bearing.unit.figures : max(1, bearing.digits.count)
        HStack(alignment: .firstTextBaseline, spacing: 8) {
            Text(verbatim: bearing.digits.padding(toLength: figures, withPad: "_", startingAt: 0)).letters(.count)
            Text(verbatim: model.asksBearing ? bearing.unitTold : unit).letters(.figure)
        }
        .accessibilityElement(children: .combine)
    }
}

/// What is met where the leg ends.
struct MetField: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        TextField(text: typed, axis: .horizontal) { Text(verbatim: Labels.metField.text) }
            .letters(.body)
            .frame(minHeight: Sizes.walking)
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedMet
    }
}
