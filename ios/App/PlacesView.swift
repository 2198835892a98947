import FieldModel
import SwiftUI

/// The five places. The app stands in the one that the trip is in; another may be looked at.
struct PlacesView: View {
    @Binding var light: Lighting
    @Environment(FieldModel.self) private var model
    @Environment(\.theme) private var theme
    @State private var looked: Stage?
    @State private var listed = false

    var body: some View {
        VStack(spacing: 0) {
            PlaceRow(place: place, listed: $listed)
            StripView(light: $light)
            Rectangle().frame(height: 2).foregroundStyle(theme.color(.divider))
            if listed { PlaceList(looked: $looked, listed: $listed) } else { screen }
        }
        .background(theme.color(.paper))
        .foregroundStyle(theme.color(.text))
        .onChange(of: model.snapshot?.stage) { looked = nil }
        .onChange(of: model.said) { announce(model.said.first) }
        .onChange(of: model.refusal) { announce(model.refusal?.sentence) }
    }

    private var place: Stage { looked ?? model.snapshot?.stage ?? .before }

    @ViewBuilder private var screen: some View {
        if model.draft.pad != nil {
            PadScreen()
        } else {
            switch place {
            case .before: BeforeScreen { looked = .besideTheLine }
            case .besideTheLine: BesideScreen()
            case .onFoot: FootScreen()
            case .wayBack: BackScreen()
            case .afterwards: AfterScreen { looked = .before }
            }
        }
    }

    private func announce(_ sentence: String?) {
        guard let sentence else { return }
        AccessibilityNotification.Announcement(sentence).post()
    }
}

/// All five, a row each.
struct PlaceList: View {
    @Binding var looked: Stage?
    @Binding var listed: Bool

    var body: some View {
        ScrollView {
            VStack(spacing: Sizes.between) {
                ForEach(Stage.allCases, id: \.self) { place in
                    Outlined(Labels.place(place), least: Sizes.walking) { (looked, listed) = (place, false) }
                }
            }
            .padding(Sizes.side)
        }
    }
}
