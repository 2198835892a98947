import FieldModel
import SwiftUI

/// The fix: what does not fit, chart, three sentences, places, what fits; everything else below.
struct FixView: View {
    let fix: Fix

    var body: some View {
        CheckTold()
        if fix.misfitTold != nil { Minded(first: fix.mindedFirst, all: fix.cautions) }
        ChartView(of: .fix)
        if fix.places.count == 1 { Text(verbatim: fix.places[0].reference).letters(.glance) }
        FieldTold(fix.field, place: fix.whereTold, misfit: fix.misfitTold, places: fix.places.map(\.told))
        SaidSince()
        if fix.misfitTold == nil { Minded(first: fix.mindedFirst, all: fix.cautions) }
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
        if fix.misfitTold != nil { Minded(first: fix.mindedFirst, all: fix.cautions) }
        ChartView(of: .fix)
        if let place = fix.places.first, !fix.isRegions { Text(verbatim: place.reference).letters(.glance) }
        FieldTold(fix.field, place: fix.whereTold, misfit: fix.misfitTold, places: fix.places.map(\.told))
        SaidSince()
        if fix.misfitTold == nil { Minded(first: fix.mindedFirst, all: fix.cautions) }
        NextSights()
        HeldList()
        KeepList(places: fix.places.map(\.told))
        FixTools()
        // The directions of the only place stand in its sentence.
        if fix.places.count == 1 { Sentences(fix.places.map(\.told), .label) }
        Sentences(fix.restTold, .label)
    }
}

/// Its check, what else can be told, and what it was taken with; beside the line alone.
struct FixTools: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.isBeside {
            CheckView()
            SightList()
            InstrumentChoice()
            Outlined(model.draft.anew ? .addToFix : .newFix) { model.edit { $0.anew.toggle() } }
            StandView()
            GroundNearView()
        }
    }
}

/// Where, of several places each by its own sentence, then what fits and what next; what does not fit stands elsewhere.
struct FieldTold: View {
    let field: [String]
    let place: String
    let misfit: String?
    let places: [String]

    init(_ field: [String], place: String, misfit: String?, places: [String]) {
        (self.field, self.place, self.misfit, self.places) = (field, place, misfit, places)
    }

    var body: some View {
        Text(verbatim: place).letters(.heading)
        // Of one place the sentence says the same.
        if places.count > 1 { Sentences(places) }
        Sentences(field, without: [place, misfit])
    }
}

/// What is to be minded first, under one mark; a touch shows the rest below it.
struct Minded: View {
    let first: [String]
    let all: [String]
    @State private var opened = false

    var body: some View {
        if !first.isEmpty { CautionBar(first) }
        if opened {
            Sentences(all)
        } else if !Set(all).isSubset(of: first) {
            Outlined(.moreOnThis) { opened = true }
        }
    }
}

/// A place to be kept, where the foot does not keep the only one; which of several is asked.
struct KeepList: View {
    let places: [String]
    @State private var asked = false
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.isBeside, !isInFoot, !places.isEmpty {
            if asked, places.count > 1 {
                Named(.keepWhich, size: .heading)
                ForEach(Array(places.enumerated()), id: \.offset) { place in
                    Outlined(place.element) { model.keep(stretch: UInt32(place.offset + 1)) }
                }
            } else {
                Outlined(.hereStandsTheCar) { if places.count > 1 { asked = true } else { model.keep() } }
            }
        }
    }

    private var isInFoot: Bool {
        places.count < 2 && model.again == nil && model.snapshot?.nextSights.isEmpty != false
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
        (model.isBeside ? model.snapshot?.nextSights ?? [] : []).dropFirst(model.again == nil ? 1 : 0)
    }
}
