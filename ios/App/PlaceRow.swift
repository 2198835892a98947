import FieldModel
import SwiftUI

/// The place's name over five marks, and what an undo would strike. Undo is two touches.
struct PlaceRow: View {
    let place: Stage
    @Binding var listed: Bool
    @Environment(FieldModel.self) private var model
    @State private var asked = false

    var body: some View {
        VStack(spacing: 0) {
            HStack(spacing: Sizes.between) {
                Button {
                    listed.toggle()
                } label: {
                    VStack(alignment: .leading) {
                        Text(verbatim: Labels.place(place)).letters(.heading)
                        PlaceMarks(place: place)
                    }
                    .frame(maxWidth: .infinity, minHeight: Sizes.target, alignment: .leading)
                }
                .buttonStyle(BareStyle())
                if let undo = model.snapshot?.undo {
                    Button {
                        asked.toggle()
                    } label: {
                        Text(verbatim: "\(Labels.undo)\n\(undo)").letters(.label)
                            .frame(minWidth: Sizes.target, minHeight: Sizes.target)
                    }
                    .buttonStyle(BareStyle())
                }
            }
            if asked { strike }
        }
        .padding(.horizontal, Sizes.side)
    }

    private var strike: some View {
        HStack(spacing: Sizes.between) {
            Outlined(Labels.leave) { asked = false }
            Outlined(Labels.strike) {
                asked = false
                model.strike()
            }
        }
    }
}

/// Filled disc: behind us; filled square: here; open disc: ahead.
struct PlaceMarks: View {
    let place: Stage
    @Environment(\.theme) private var theme

    var body: some View {
        HStack(spacing: 8) {
            ForEach(Stage.allCases, id: \.self) { other in
                if other == place {
                    Rectangle().frame(width: 12, height: 12)
                } else if behind(other) {
                    Circle().frame(width: 10, height: 10)
                } else {
                    Circle().stroke(theme.color(.text), lineWidth: 2).frame(width: 10, height: 10)
                }
            }
        }
        .accessibilityHidden(true)
    }

    private func behind(_ other: Stage) -> Bool {
        let order = Stage.allCases
        return (order.firstIndex(of: other) ?? 0) < (order.firstIndex(of: place) ?? 0)
    }
}
