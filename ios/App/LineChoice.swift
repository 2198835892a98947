import FieldModel
import SwiftUI

/// Which line are you on?
struct LineChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Named(.whichLine, size: .heading)
        ForEach(model.snapshot?.sheet?.lines ?? [], id: \.name) { line in
            Outlined("\(line.name)\n\(line.kind)", least: Sizes.walking) { model.choose(line: line.name) }
        }
    }
}

/// What do you see? Likeliest first, each row with where to look or what was read.
struct SightList: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Named(.whatDoYouSee, size: .heading)
        ForEach(model.snapshot?.sights ?? [], id: \.landmark) { sight in
            Row(sight.sighted ? .good : .open, "\(sight.landmark), \(sight.kind)", sight.told) {
                model.openPad(.sight(sight.landmark))
            }
        }
    }
}

/// What the bearing is read with.
struct InstrumentChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let chosen = model.draft.instrument ?? .baseplate
        Named(.readWith, chosen.label.text, size: .label)
        ForEach(Record.Instrument.allCases, id: \.self) { instrument in
            if instrument != chosen {
                Outlined(instrument.label) { model.edit { $0.instrument = instrument } }
            }
        }
    }
}

extension Record.Instrument {
    fileprivate var label: Labels {
        switch self {
        case .sighting: .instrumentSighting
        case .baseplate: .instrumentBaseplate
        case .quick: .instrumentQuick
        case .phone: .instrumentPhone
        }
    }
}

/// Holds a typed grid reference against the fix.
struct CheckField: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        HStack(spacing: Sizes.between) {
            TextField(text: typed, axis: .horizontal) { Text(verbatim: Labels.checkField.text) }
                .letters(.body)
                .frame(minHeight: Sizes.target)
                .autocorrectionDisabled()
            Outlined(.checkIt) { model.checkPlace() }
        }
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedPlace
    }
}
