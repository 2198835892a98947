import FieldModel
import SwiftUI

/// The landforms near the likeliest place, a touch begins the bearing to one; below them what cannot be told. Nothing where the
/// sheet has no heights.
struct GroundNearView: View {
    @Environment(FieldModel.self) private var model
    @State private var isLate = false

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            if let near = model.groundNear {
                if !near.isNothing { Named(.groundNear, size: .heading) }
                ForEach(Array(near.landforms.enumerated()), id: \.offset) { one in
                    Outlined(one.element.told) { model.begin(one.element) }
                }
                ForEach(near.untold, id: \.self) { Text(verbatim: $0).letters(.body) }
            } else if isLate {
                Named(.groundNear, size: .heading)
                Named(.groundNearAsked)
            }
        }
        .task(id: model.stood) { await model.askGroundNear() }
        .task(id: model.stood) {
            isLate = false
            // What comes sooner needs no word before it.
            try? await Task.sleep(for: .milliseconds(200))
            isLate = true
        }
    }
}
