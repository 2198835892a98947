import FieldModel
import SwiftUI

/// The way to what is not listed of a large sheet.
struct PartOfName: View {
    /// How much is not listed.
    let left: UInt32?
    /// What the core says of the name that was looked up.
    let told: [String]
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let left, left > 0 {
            Sentences(told)
            TextField(text: typed, axis: .horizontal) { Text(verbatim: Labels.partOfName.text("\(left)")) }
                .letters(.body)
                .frame(minHeight: Sizes.target)
                .autocorrectionDisabled()
        }
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedPart
    }
}
