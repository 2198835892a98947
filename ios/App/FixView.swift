import FieldModel
import SwiftUI

/// The fix: what does not fit, chart, three sentences, places, what fits; everything else below.
struct FixView: View {
    let fix: Fix

    var body: some View {
        CheckTold()
        if let misfit = fix.misfitTold { CautionBar([misfit]) }
        ChartView(of: .fix)
        if fix.places.count == 1 { Text(verbatim: fix.places[0].reference).letters(.glance) }
        Answer(fix.field, without: fix.misfitTold)
        SaidSince()
        // Of one place the first sentence says the same.
        if fix.places.count > 1 { Sentences(fix.places.map(\.told)) }
        if !fix.cautions.isEmpty { CautionBar(fix.cautions) }
        lines
        NextSights()
        HeldList()
        KeepList(places: fix.places.map(\.told))
        FixTools()
        Sentences(fix.restTold, .label)
    }

    /// Which line, while several are possible.
    @ViewBuilder private var lines: some View {
        if fix.lines.count > 1 {
            ForEach(fix.lines, id: \.name) { line in
                Text(verbatim: "\(Labels.onLine.text(line.name)): \(line.told)").letters(.body)
            }
        }
    }
}

/// The fix in the open. A strip or a ring has no middle to stand at: it has no reference to be read at a glance.
struct OpenFixView: View {
    let fix: OpenFix

    var body: some View {
        CheckTold()
        if let misfit = fix.misfitTold { CautionBar([misfit]) }
        ChartView(of: .fix)
        if let place = fix.places.first, !fix.isRegions { Text(verbatim: place.reference).letters(.glance) }
        Answer(fix.field, without: fix.misfitTold)
        SaidSince()
        if fix.places.count > 1 { Sentences(fix.places.map(\.told)) }
        if !fix.cautions.isEmpty { CautionBar(fix.cautions) }
        NextSights()
        HeldList()
        KeepList(places: fix.places.map(\.told))
        FixTools()
        Sentences(fix.restTold, .label)
    }
}

/// Its check, what else can be told, and what it was taken with.
struct FixTools: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        CheckView()
        SightList()
        InstrumentChoice()
        Outlined(model.draft.anew ? .addToFix : .newFix) { model.edit { $0.anew.toggle() } }
        StandView()
        GroundNearView()
    }
}

/// The places to be kept, each in words, where the foot does not keep the only one.
struct KeepList: View {
    let places: [String]
    @Environment(FieldModel.self) private var model

    var body: some View {
        if !isInFoot {
            ForEach(Array(places.enumerated()), id: \.offset) { place in
                Outlined("\(Labels.hereStandsTheCar.text)\n\(place.element)") {
                    model.keep(stretch: UInt32(place.offset + 1))
                }
            }
        }
    }

    private var isInFoot: Bool {
        places.count < 2 && model.misfit == nil && model.snapshot?.nextSights.isEmpty != false
    }
}

/// What else to sight next; the best of it where the foot has something else. A touch begins it.
struct NextSights: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        ForEach(Array(others.enumerated()), id: \.offset) { one in
            let (next, isLine) = (one.element, one.element.isLineRun)
            let name = isLine ? Labels.readTheLine.text : Labels.sightNext.text(next.landmark)
            Outlined("\(name)\n\(next.told)", least: Sizes.walking) { model.begin(next) }
        }
    }

    private var others: ArraySlice<NextSight> {
        (model.snapshot?.nextSights ?? []).dropFirst(model.misfit == nil ? 1 : 0)
    }
}
