import FieldModel
import SwiftUI

/// The place's name over five marks, and what an undo would strike.
struct PlaceRow: View {
    let place: Stage
    let trip: Stage
    @Binding var listed: Bool
    @Binding var asked: Bool
    @Environment(FieldModel.self) private var model

    var body: some View {
        HStack(spacing: Sizes.between) {
            Button {
                listed.toggle()
            } label: {
                VStack(alignment: .leading, spacing: 4) {
                    Named(place.label, size: .heading)
                    PlaceMarks(place: trip, looked: place)
                }
                .frame(maxWidth: .infinity, minHeight: Sizes.target, alignment: .leading)
            }
            .buttonStyle(BareStyle())
            .accessibilityLabel(Text(verbatim: "\(place.label.text). \(Labels.opensPlaces.text)"))
            if model.snapshot?.undo != nil { UndoButton(asked: $asked) }
        }
        .padding(.horizontal, Sizes.side)
    }
}

/// Within ten seconds of an entry one touch strikes it; later the first touch shows it.
struct UndoButton: View {
    @Binding var asked: Bool
    @Environment(FieldModel.self) private var model

    var body: some View {
        let what = model.snapshot?.undo ?? ""
        Button {
            if model.hasFreshEntry { model.strike() } else { asked.toggle() }
        } label: {
            VStack(alignment: .trailing, spacing: 2) {
                Named(.undo, size: .body)
                Text(verbatim: what).letters(.label)
            }
            .frame(minWidth: Sizes.target, minHeight: Sizes.target)
        }
        .buttonStyle(BareStyle())
        .accessibilityLabel(Text(verbatim: Labels.undoWhat.text(what)))
    }
}

/// What an undo would strike, and whether it shall.
struct StrikeView: View {
    @Binding var asked: Bool
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            Named(.wouldStrike, model.snapshot?.undo ?? "", size: .heading)
            Outlined(.leave, least: Sizes.walking) { asked = false }
        } foot: {
            Primary(.strike) {
                asked = false
                model.strike()
            }
        }
    }
}

/// Filled disc: behind us; filled square: here; open disc: ahead. The place that is looked at stands on a bar.
struct PlaceMarks: View {
    let place: Stage
    let looked: Stage
    @Environment(\.theme) private var theme

    var body: some View {
        HStack(spacing: 8) {
            ForEach(Stage.allCases, id: \.self) { other in
                VStack(spacing: 2) {
                    mark(other).frame(height: 12)
                    Rectangle().frame(width: 12, height: 2).opacity(other == looked && other != place ? 1 : 0)
                }
            }
        }
        .accessibilityHidden(true)
    }

    @ViewBuilder private func mark(_ other: Stage) -> some View {
        if other == place {
            Rectangle().frame(width: 12, height: 12)
        } else if behind(other) {
            Circle().frame(width: 10, height: 10)
        } else {
            Circle().stroke(theme.color(.text), lineWidth: 2).frame(width: 10, height: 10)
        }
    }

    private func behind(_ other: Stage) -> Bool {
        let order = Stage.allCases
        return (order.firstIndex(of: other) ?? 0) < (order.firstIndex(of: place) ?? 0)
    }
}
