import FieldModel
import SwiftUI

/// The five places. The app stands in the one that the trip is in; another may be looked at.
struct PlacesView: View {
    @Binding var light: Lighting
    @Environment(FieldModel.self) private var model
    @Environment(\.theme) private var theme
    @Environment(\.dynamicTypeSize) private var typeSize
    @State private var looked: Stage?
    @State private var listed = false
    @State private var asked = false

    var body: some View {
        VStack(spacing: 0) {
            if !isCramped { PlaceRow(place: place, trip: stage, listed: $listed, asked: $asked) }
            StripView(light: $light)
            Rectangle().frame(height: 2).foregroundStyle(theme.color(.divider))
            screen
        }
        .background(theme.color(.paper))
        .foregroundStyle(theme.color(.text))
        .onChange(of: model.snapshot?.stage) { looked = nil }
        .task(id: isLit) { UIApplication.shared.isIdleTimerDisabled = isLit }
        .onChange(of: model.said) { announce(model.said.first) }
        .onChange(of: model.refusal) { announce(model.refusal?.sentence) }
        .sensoryFeedback(trigger: model.refusal) { _, refusal in refusal == nil ? nil : .error }
        .sensoryFeedback(.success, trigger: model.snapshot?.legs.count)
    }

    private var stage: Stage { model.snapshot?.stage ?? .before }
    private var place: Stage { looked ?? stage }

    /// Paces are counted by touch, which a dark screen does not take.
    private var isLit: Bool { model.isCounting && place == stage }

    /// On foot at large text the row makes room for the count, until something else is opened.
    private var isCramped: Bool {
        let isWalking = place == .onFoot && model.draft.leg.bearing != nil && model.draft.open == nil
        return typeSize.isAccessibilitySize && isWalking && model.draft.pad == nil && !listed && !asked
    }

    @ViewBuilder private var screen: some View {
        if listed {
            PlaceList(looked: $looked, listed: $listed)
        } else if asked, model.snapshot?.undo != nil {
            StrikeView(asked: $asked)
        } else if case .asks(let asking) = model.draft.pad, let question = asking.question {
            AskScreen(asking: asking, question: question)
        } else if model.draft.pad == .more {
            MoreScreen()
        } else if model.draft.pad == .hand || model.draft.pad == .adds {
            HandScreen()
        } else if model.draft.pad == .parts {
            PartsScreen()
        } else if model.draft.pad != nil {
            PadScreen()
        } else {
            switch place {
            case .before: BeforeScreen { looked = nil }
            case _ where place != stage: LookedScreen(place: place) { looked = nil }
            case .besideTheLine: BesideScreen()
            case .onFoot: FootScreen(asked: $asked)
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

/// All five, a row each; the one in which the trip is bears a word.
struct PlaceList: View {
    @Binding var looked: Stage?
    @Binding var listed: Bool
    @Environment(FieldModel.self) private var model

    var body: some View {
        ScrollView {
            VStack(spacing: Sizes.between) {
                ForEach(Stage.allCases, id: \.self) { place in
                    let here = place == model.snapshot?.stage ? "\n\(Labels.hereNow.text)" : ""
                    Outlined(place.label.text + here, least: Sizes.walking) { (looked, listed) = (place, false) }
                }
            }
            .padding(Sizes.side)
        }
    }
}

extension Stage {
    var label: Labels {
        switch self {
        case .before: .placeBefore
        case .besideTheLine: .placeBeside
        case .onFoot: .placeOnFoot
        case .wayBack: .placeWayBack
        case .afterwards: .placeAfterwards
        }
    }
}
