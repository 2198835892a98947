import FieldModel
import SwiftUI

/// Where the phone believes to be, beside the fix. The phone is asked when the walker asks.
struct PhonePlace: View {
    @Environment(FieldModel.self) private var model
    @Environment(Witnesses.self) private var witnesses

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            switch witnesses.place {
            case .unasked: Outlined(.phonePlaceAsk) { witnesses.askPlace() }
            case .waiting: Named(.phonePlaceWaits)
            case .word(let place): told(place)
            case .silent(.refused): silent(.phonePlaceRefused)
            case .silent(.absent): silent(.phonePlaceNone)
            }
        }
        .task(id: witnesses.placeAsked) { await witnesses.listenForPlace() }
        .task(id: witnesses.placeAsked) {
            while !Task.isCancelled {
                witnesses.tellAge()
                try? await Task.sleep(for: .seconds(5))
            }
        }
    }

    @ViewBuilder private func told(_ place: PlaceTold) -> some View {
        Named(.phonePlace, size: .label)
        Text(verbatim: "\(place.reference), \(place.spread), \(place.age)")
            .strikethrough(place.isStale)
            .letters(.figure)
        Sentences(place.said)
        if model.snapshot?.stage == .besideTheLine, model.hasFix {
            Outlined(.holdAgainst) { model.check(place) }
        }
    }

    @ViewBuilder private func silent(_ label: Labels) -> some View {
        Named(label)
        Outlined(.phonePlaceAsk) { witnesses.askPlace() }
    }
}

/// Whether metal or a current is near, by the phone's own field.
struct PhoneFieldCheck: View {
    @Environment(Witnesses.self) private var witnesses

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            switch witnesses.field {
            case .unasked: Outlined(.phoneField) { witnesses.askField() }
            case .waiting: Named(.phoneFieldWaits)
            case .word(let field):
                if field.isAttracted { CautionBar(field.said) } else { Sentences(field.said) }
            case .silent: Named(.phoneFieldNone)
            }
        }
        .task(id: witnesses.fieldAsked) { await witnesses.listenForField() }
    }
}

/// On the pad: what is read with, and what the phone says, to be taken by a touch and to be set back.
struct PhoneHeading: View {
    @Environment(FieldModel.self) private var model
    @Environment(Witnesses.self) private var witnesses

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            Named(.readWith, (model.draft.instrument ?? .baseplate).label.text, size: .label)
            if model.draft.instrument == .phone { Outlined(.notByPhone) { model.readWithOwn() } }
            switch witnesses.field {
            case .unasked: Outlined(.phoneFlat) { witnesses.askField() }
            case .waiting: Named(.phoneFieldWaits)
            case .word(let field):
                // A needle that iron turns is not to be taken.
                if field.isAttracted {
                    CautionBar(field.said)
                } else if let heading = field.heading {
                    Outlined("\(Labels.phoneSays.text(heading.told))\n\(Labels.takeIt.text)") {
                        model.take(heading)
                    }
                } else {
                    Sentences(field.said)
                }
            case .silent: Named(.phoneFieldNone)
            }
        }
        .task(id: witnesses.fieldAsked) { await witnesses.listenForField() }
    }
}
