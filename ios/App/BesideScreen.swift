import FieldModel
import SwiftUI

/// Which line, what do you see, the fix, its check, the car.
struct BesideScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if choosing {
                LineChoice()
            } else {
                if model.snapshot?.fix != nil { ChartView(of: .fix) }
                SaidView()
                if let fix = model.snapshot?.fix {
                    places(fix)
                    CheckField()
                }
                line
                SightList()
                if model.snapshot?.fix != nil {
                    Outlined(model.draft.anew ? Labels.adds : Labels.anew) { model.edit { $0.anew.toggle() } }
                }
            }
        } foot: {
            if let landmark = sighted {
                Primary(Labels.read(landmark)) { model.openPad(.sight(landmark)) }
            } else if model.snapshot?.fix != nil, !choosing {
                Primary(Labels.hereStands) { model.keep() }
            }
        }
    }

    private var line: some View {
        HStack(spacing: Sizes.between) {
            Text(verbatim: model.line ?? "").letters(.heading)
            Outlined(Labels.change) { model.edit { $0.choosing = true } }
        }
    }

    /// What the primary action sights: the first landmark, then the one that settles the place.
    private var sighted: String? {
        guard !choosing else { return nil }
        guard let fix = model.snapshot?.fix else { return model.snapshot?.sights.first?.landmark }
        return fix.places.count > 1 ? model.snapshot?.nextSight?.landmark : nil
    }

    private var choosing: Bool { model.line == nil || model.draft.choosing }

    /// Each place in words. The kept one is the likeliest unless another is named.
    @ViewBuilder private func places(_ fix: Fix) -> some View {
        ForEach(Array(model.placesTold.enumerated()), id: \.offset) { place in
            if fix.places.count > 1 {
                Outlined("\(place.element)\n\(Labels.itIsHere)") { model.keep(stretch: place.offset + 1) }
            } else {
                Text(verbatim: place.element).letters(.body)
            }
        }
    }
}
