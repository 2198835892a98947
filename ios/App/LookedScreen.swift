import FieldModel
import SwiftUI

/// Another place than the one that the trip is in: to be read, with the way back to the trip in the foot.
struct LookedScreen: View {
    let place: Stage
    let leave: @MainActor () -> Void
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            switch place {
            case .besideTheLine: FixRead()
            case .onFoot, .afterwards: walk
            case .wayBack: WayRead()
            case .before: EmptyView()
            }
        } foot: {
            Primary((model.snapshot?.stage ?? .before).label, act: leave)
        }
    }

    @ViewBuilder private var walk: some View {
        if model.snapshot?.car == nil {
            Named(.placeEmpty)
        } else {
            ChartView(of: .walk)
            LegList()
            if place == .afterwards { Outlined(.closeTrip, least: Sizes.walking) { model.close() } }
        }
    }
}

/// The fix from another place.
private struct FixRead: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let fix = model.snapshot?.fix {
            FixView(fix: fix)
            PhonePlace()
        } else if let fix = model.snapshot?.openFix {
            OpenFixView(fix: fix)
            PhonePlace()
        } else {
            Named(.placeEmpty)
        }
    }
}

/// The way back as it would be; nothing before a leg is walked.
private struct WayRead: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.snapshot?.legs.isEmpty == false { WayTold() } else { Named(.placeEmpty) }
    }
}
