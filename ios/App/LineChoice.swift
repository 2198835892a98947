import FieldModel
import SwiftUI

/// Which line are you on?
struct LineChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Text(verbatim: Labels.whichLine).letters(.heading)
        ForEach(model.snapshot?.sheet?.lines ?? [], id: \.name) { line in
            Outlined("\(line.name)\n\(line.kind)", least: Sizes.walking) { model.choose(line: line.name) }
        }
    }
}

/// What do you see? Likeliest first, each row with where to look or what was read.
struct SightList: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let next = model.snapshot?.nextSight {
            Outlined("\(Labels.read(next.landmark))\n\(next.told)", least: Sizes.walking) {
                model.openPad(.sight(next.landmark))
            }
        }
        Text(verbatim: Labels.whatDoYouSee).letters(.heading)
        ForEach(model.snapshot?.sights ?? [], id: \.landmark) { sight in
            Outlined("\(sight.sighted ? "■" : "□") \(sight.landmark), \(sight.kind)\n\(sight.told)") {
                model.openPad(.sight(sight.landmark))
            }
            .accessibilityLabel(Text(verbatim: "\(sight.landmark), \(sight.kind). \(sight.told)"))
        }
        InstrumentChoice()
    }
}

/// What the bearing is read with.
struct InstrumentChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Text(verbatim: Labels.instrument).letters(.label)
        ForEach(Record.Instrument.allCases, id: \.self) { instrument in
            let chosen = model.draft.instrument ?? .baseplate
            Outlined("\(chosen == instrument ? "■" : "□") \(Labels.instrument(instrument))") {
                model.edit { $0.instrument = instrument }
            }
            .accessibilityLabel(Text(verbatim: Labels.instrument(instrument)))
            .accessibilityAddTraits(chosen == instrument ? .isSelected : [])
        }
    }
}

/// Holds a typed grid reference, or the phone's own belief, against the fix.
struct CheckField: View {
    @Environment(FieldModel.self) private var model
    @Environment(Witnesses.self) private var witnesses

    var body: some View {
        HStack(spacing: Sizes.between) {
            TextField(text: typed, axis: .horizontal) { Text(verbatim: Labels.gridReference) }
                .letters(.body)
                .frame(minHeight: Sizes.target)
                .autocorrectionDisabled()
            Outlined(Labels.checkIt) { model.checkPlace() }
        }
        if let phone = witnesses.position {
            Outlined("\(Labels.phone): \(phone.text)\n\(Labels.checkIt)") {
                model.act(.check(phone.text, spreadM: phone.spreadM))
            }
        }
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedPlace
    }
}
