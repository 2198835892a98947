import FieldModel
import SwiftUI

/// Check it: a place from elsewhere, to be held against the fix.
struct CheckView: View {
    var body: some View {
        CheckField()
        WeighChecked(isMisfit: true)
        PhonePlace()
    }
}

/// How that place fits, and what would explain it if it does not. One that fits is weighed in from here, one that does not
/// after it could be typed anew.
struct CheckTold: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let check = model.snapshot?.check {
            Told(Standing(check.verdict), Labels.checked.text, check.told)
            Sentences(check.slips.map(\.told))
            WeighChecked(isMisfit: false)
        }
    }
}

/// Weighs the place in that was held against the fix, where that fits or does not, as asked for.
struct WeighChecked: View {
    let isMisfit: Bool
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let place = model.checked, model.isBeside, (model.snapshot?.check?.verdict == .misfit) == isMisfit {
            Outlined(.weighItIn, least: Sizes.walking) { model.weighIn(place) }
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
