import FieldModel
import SwiftUI

/// A place: what is told and asked scrolls, the one primary action stands at the bottom edge.
struct Page<Content: View, Foot: View>: View {
    /// Whether more may stand there than fits; else something in it takes the height that is left.
    let rolls: Bool
    let content: Content
    let foot: Foot
    @Environment(\.theme) private var theme

    init(rolls: Bool = true, @ViewBuilder content: () -> Content, @ViewBuilder foot: () -> Foot) {
        (self.rolls, self.content, self.foot) = (rolls, content(), foot())
    }

    var body: some View {
        VStack(spacing: 0) {
            if rolls { ScrollView { column } } else { column.frame(maxHeight: .infinity, alignment: .top) }
        }
        .safeAreaInset(edge: .bottom) {
            VStack(spacing: Sizes.between) { foot }
                .padding(Sizes.side)
                .background(theme.color(.paper))
        }
    }

    private var column: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            RefusalBar()
            content
        }
        .frame(maxWidth: .infinity, alignment: .leading)
        .padding(Sizes.side)
    }
}

/// Why the last entry was not taken, what was typed is still there; and what else is to be known.
struct RefusalBar: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let refusal = model.refusal {
            CautionBar([refusal.sentence])
            if model.snapshot == nil {
                if model.mayKeepAside { Outlined(.keepAside, least: Sizes.walking) { model.keepAside() } }
                Outlined(.openBook, least: Sizes.walking) { model.open() }
            }
        }
        switch model.notice {
        case .keptAside(let name): CautionBar([Labels.keptAside.text(name)])
        case .pacesDropped(let count): CautionBar([Labels.pacesDropped.text("\(count)")])
        case nil: EmptyView()
        }
    }
}

/// What to mind, above the fold; nothing to dismiss.
struct CautionBar: View {
    let sentences: [String]
    @Environment(\.theme) private var theme

    init(_ sentences: [String]) { self.sentences = sentences }

    var body: some View {
        HStack(spacing: 8) {
            Image(systemName: "exclamationmark.octagon").accessibilityHidden(true)
            VStack(alignment: .leading, spacing: 4) { Sentences(sentences) }
        }
        .padding(.leading, 14)
        .overlay(alignment: .leading) { Rectangle().frame(width: 6) }
        .foregroundStyle(theme.color(.warning))
    }
}

/// The core's caution where the trip stands.
struct Caution: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let caution = model.snapshot?.caution { CautionBar([caution]) }
    }
}
