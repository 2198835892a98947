import FieldModel
import SwiftUI

/// The landforms near the likeliest place; nothing where the sheet has no heights or shows none near. A touch begins the
/// bearing to it.
struct GroundNearView: View {
    @Environment(FieldModel.self) private var model
    @State private var isLate = false

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            if let landforms = model.landforms {
                if !landforms.isEmpty { Named(.groundNear, size: .heading) }
                ForEach(Array(landforms.enumerated()), id: \.offset) { one in
                    Outlined(one.element.told) { model.begin(one.element) }
                }
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
