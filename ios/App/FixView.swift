import FieldModel
import SwiftUI

/// The fix: chart, place, spread, what to sight next, what fits.
struct FixView: View {
    let fix: Fix
    @Environment(FieldModel.self) private var model

    var body: some View {
        ChartView(of: .fix)
        if fix.places.count == 1 { Text(verbatim: fix.places[0].reference).letters(.glance) }
        SaidView()
        places
        if let next = model.snapshot?.nextSight {
            Outlined("\(Labels.sightNext.text(next.landmark))\n\(next.told)", least: Sizes.walking) {
                model.openPad(.sight(next.landmark))
            }
        }
        fits
        CheckField()
        PhonePlace()
        SightList()
        InstrumentChoice()
        Outlined(model.draft.anew ? .addToFix : .newFix) { model.edit { $0.anew.toggle() } }
        Outlined(.changeLine) { model.edit { $0.choosing = true } }
    }

    /// Each place in words. The kept one is the likeliest unless another is named.
    @ViewBuilder private var places: some View {
        ForEach(Array(model.placesTold.enumerated()), id: \.offset) { place in
            Text(verbatim: place.element).letters(.body)
            if isOpen {
                Outlined(.hereStandsTheCar) { model.keep(stretch: UInt32(place.offset + 1)) }
            }
        }
    }

    /// Whether the foot offers another sighting instead of keeping the place.
    private var isOpen: Bool { fix.places.count > 1 || fix.sightings.contains { $0.verdict == .misfit } }

    @ViewBuilder private var fits: some View {
        Named(.doesItFit, size: .heading)
        ForEach(Array(fix.sightings.enumerated()), id: \.offset) { one in
            let (sighting, word) = (one.element, one.element.verdict.label.text)
            Row(Standing(sighting.verdict), sighting.landmark, "\(word), \(sighting.bearingTold)") {
                model.openPad(.sight(sighting.landmark))
            }
        }
        if let check = model.snapshot?.check {
            HStack(spacing: Sizes.between) {
                MarkView(standing: Standing(check.verdict))
                Text(verbatim: "\(Labels.checked.text): \(check.verdict.label.text)").letters(.body)
            }
        }
    }
}

extension Verdict {
    var label: Labels {
        switch self {
        case .fits: .fits
        case .doubtful: .doubtful
        case .misfit: .misfit
        }
    }
}
