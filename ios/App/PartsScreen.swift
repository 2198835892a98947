import FieldModel
import SwiftUI

/// The open sheet by its parts: more is added, and what is marked is struck from the foot.
struct PartsScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let parts = model.parts
        Page {
            Text(verbatim: model.snapshot?.sheet?.name ?? "").letters(.heading)
            SaidView()
            ForEach(Draft.Hand.Adding.allCases, id: \.self) { part in
                Outlined(part.label, least: Sizes.walking) { model.begin(part) }
            }
            Named(.strikeWhich)
            PartOfName(left: parts.left, told: parts.told)
            ForEach(parts.names, id: \.self) { name in
                let isMarked = model.draft.struck.contains(name)
                Row(isMarked ? .misfit : .open, name, isMarked ? Labels.toBeStruck.text : "") { model.mark(name) }
            }
            Outlined(.goBack) { model.shutPad() }
        } foot: {
            if !model.draft.struck.isEmpty { Primary(.strike) { model.strikeMarked() } }
        }
    }
}

extension Draft.Hand.Adding {
    fileprivate var label: Labels {
        switch self {
        case .landmark: .addLandmark
        case .point: .addPoint
        case .line: .addLine
        }
    }
}
