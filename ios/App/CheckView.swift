import FieldModel
import SwiftUI

/// Check it: a place from elsewhere, to be held against the fix.
struct CheckView: View {
    var body: some View {
        CheckField()
        PhonePlace()
    }
}

/// How that place fits, what would explain it if it does not, and its weighing in.
struct CheckTold: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let check = model.snapshot?.check {
            Told(Standing(check.verdict), Labels.checked.text, check.told)
            Sentences(check.slips.map(\.told))
            if let place = model.checked {
                Outlined(.weighItIn, least: Sizes.walking) { model.weighIn(place) }
            }
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
