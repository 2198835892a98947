import FieldModel
import SwiftUI

/// The big pad: figures with their north beside them, keys for gloves.
struct PadScreen: View {
    @Environment(FieldModel.self) private var model
    @Environment(Witnesses.self) private var witnesses

    var body: some View {
        Page {
            Text(verbatim: question).letters(.heading)
            HStack(alignment: .firstTextBaseline, spacing: 8) {
                Text(verbatim: model.draft.digits).letters(.count)
                Text(verbatim: unit).letters(.figure)
            }
            .accessibilityElement(children: .combine)
            keys
            if asksBearing {
                Outlined(Labels.otherNorth(model.draft.north)) { model.press(.north) }
                if let heading = witnesses.headingDegMag {
                    Text(verbatim: "\(Labels.phone): \(Figures.bearing(heading, .mag))").letters(.label)
                }
                if let strength = witnesses.strength {
                    Text(verbatim: "\(Labels.field): \(Figures.whole(strength))\u{a0}µT").letters(.label)
                }
            }
            Outlined(Labels.shut) { model.shutPad() }
        } foot: {
            Primary(primary) { model.finishPad() }
        }
    }

    private var keys: some View {
        Grid(horizontalSpacing: Sizes.between, verticalSpacing: Sizes.between) {
            ForEach([[1, 2, 3], [4, 5, 6], [7, 8, 9]], id: \.self) { row in
                GridRow {
                    ForEach(row, id: \.self) { digit in key("\(digit)", .digit(digit)) }
                }
            }
            GridRow {
                key(Labels.lastOff, .last)
                key("0", .digit(0))
                key(Labels.clear, .clear)
            }
        }
    }

    private func key(_ name: String, _ key: FieldModel.Key) -> some View {
        Outlined(name, least: Sizes.walking) { model.press(key) }
    }

    private var asksBearing: Bool {
        switch model.draft.pad {
        case .sight, .walk: true
        case .detour, .pace, nil: false
        }
    }

    private var unit: String { asksBearing ? "° \(model.draft.north.rawValue)" : Labels.doublePaces }

    private var question: String {
        switch model.draft.pad {
        case .sight(let landmark): landmark
        case .walk: Labels.whichWay
        case .detour: Labels.howFarOut
        case .pace, nil: Labels.pace
        }
    }

    private var primary: String {
        switch model.draft.pad {
        case .sight: Labels.weighIn
        case .walk: Labels.walkOn
        case .detour, .pace, nil: Labels.done
        }
    }
}
