import FieldModel
import SwiftUI

/// A place: what is told and asked scrolls, the one primary action stands at the bottom edge.
struct Page<Content: View, Foot: View>: View {
    let content: Content
    let foot: Foot
    @Environment(\.theme) private var theme

    init(@ViewBuilder content: () -> Content, @ViewBuilder foot: () -> Foot) {
        (self.content, self.foot) = (content(), foot())
    }

    var body: some View {
        ScrollView {
            VStack(alignment: .leading, spacing: Sizes.between) {
                RefusalBar()
                content
            }
            .frame(maxWidth: .infinity, alignment: .leading)
            .padding(Sizes.side)
        }
        .safeAreaInset(edge: .bottom) {
            VStack(spacing: Sizes.between) { foot }
                .padding(Sizes.side)
                .background(theme.color(.paper))
        }
    }
}

/// Why the last entry was not taken; what was typed is still there.
struct RefusalBar: View {
    @Environment(FieldModel.self) private var model
    @Environment(\.theme) private var theme

    var body: some View {
        if let refusal = model.refusal {
            HStack(spacing: 8) {
                Image(systemName: "exclamationmark.octagon").accessibilityHidden(true)
                Text(verbatim: refusal.sentence).letters(.body)
            }
            .padding(.leading, 14)
            .overlay(alignment: .leading) { Rectangle().frame(width: 6) }
            .foregroundStyle(theme.color(.warning))
            if model.snapshot == nil {
                Outlined(Labels.openBook) { model.open() }
            }
        }
    }
}

/// The core's sentences, the first one as the answer.
struct SaidView: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        ForEach(Array(model.said.enumerated()), id: \.offset) { sentence in
            Text(verbatim: sentence.element).letters(sentence.offset == 0 ? .heading : .body)
        }
    }
}
