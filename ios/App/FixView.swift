import FieldModel
import SwiftUI

/// The fix: three sentences, chart, places, what to sight next, what fits, its check; everything else below.
struct FixView: View {
    let fix: Fix
    @Environment(FieldModel.self) private var model

    var body: some View {
        ChartView(of: .fix)
        if fix.places.count == 1 { Text(verbatim: fix.places[0].reference).letters(.glance) }
        Answer(fix.field)
        SaidSince()
        if !fix.cautions.isEmpty { CautionBar(fix.cautions) }
        places
        lines
        NextSights()
        HeldList()
        CheckView()
        SightList()
        InstrumentChoice()
        Outlined(model.draft.anew ? .addToFix : .newFix) { model.edit { $0.anew.toggle() } }
        StandView()
        GroundNearView()
        Sentences(fix.restTold, .label)
    }

    /// Each place in words. The kept one is the likeliest unless another is named.
    @ViewBuilder private var places: some View {
        ForEach(Array(fix.places.enumerated()), id: \.offset) { place in
            Text(verbatim: place.element.told).letters(.body)
            if isOpen {
                Outlined(.hereStandsTheCar) { model.keep(stretch: UInt32(place.offset + 1)) }
            }
        }
    }

    /// Whether the foot offers another sighting instead of keeping the place.
    private var isOpen: Bool { fix.places.count > 1 || fix.sightings.contains { $0.verdict == .misfit } }

    /// Which line, while several are possible.
    @ViewBuilder private var lines: some View {
        if fix.lines.count > 1 {
            ForEach(fix.lines, id: \.name) { line in
                Text(verbatim: "\(Labels.onLine.text(line.name)): \(line.told)").letters(.body)
            }
        }
    }
}

/// The fix in the open: three sentences, cautions, places, what fits, its check.
struct OpenFixView: View {
    let fix: OpenFix
    @Environment(FieldModel.self) private var model

    var body: some View {
        ChartView(of: .fix)
        Answer(fix.field)
        if !fix.cautions.isEmpty { CautionBar(fix.cautions) }
        ForEach(Array(fix.places.enumerated()), id: \.offset) { place in
            Text(verbatim: place.element.reference).letters(.glance)
            Text(verbatim: place.element.told).letters(.body)
            if fix.places.count > 1 {
                Outlined(.hereStandsTheCar) { model.keep(stretch: UInt32(place.offset + 1)) }
            }
        }
        SaidSince()
        HeldList()
        CheckView()
        SightList()
        InstrumentChoice()
        Outlined(model.draft.anew ? .addToFix : .newFix) { model.edit { $0.anew.toggle() } }
        StandView()
        GroundNearView()
        Sentences(fix.restTold, .label)
    }
}

/// What to sight next, the best first; a touch begins it.
struct NextSights: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        ForEach(Array((model.snapshot?.nextSights ?? []).enumerated()), id: \.offset) { one in
            let (next, isLine) = (one.element, one.element.isLineRun)
            let name = isLine ? Labels.readTheLine.text : Labels.sightNext.text(next.landmark)
            Outlined("\(name)\n\(next.told)", least: Sizes.walking) { model.begin(next) }
        }
    }
}
