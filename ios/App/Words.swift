import FieldModel
import SwiftUI

/// The core's sentences to the last record, the first one as the answer.
struct SaidView: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Answer(model.said)
    }
}

/// The answer: its first sentence is the weightiest.
struct Answer: View {
    let sentences: [String]

    init(_ sentences: [String]) { self.sentences = sentences }

    var body: some View {
        Sentences(Array(sentences.prefix(1)), .heading)
        Sentences(Array(sentences.dropFirst()))
    }
}

/// What was said since the fix was taken, of an undo; a check has its own place.
struct SaidSince: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.said != model.draft.account, model.snapshot?.check == nil { Sentences(model.said) }
    }
}

/// Sentences of one weight. Those that stand elsewhere are left out.
struct Sentences: View {
    let sentences: [String]
    let size: Letters

    init(_ sentences: [String], _ size: Letters = .body, without elsewhere: [String?] = []) {
        (self.sentences, self.size) = (sentences.filter { !elsewhere.contains($0) }, size)
    }

    var body: some View {
        ForEach(Array(sentences.enumerated()), id: \.offset) { sentence in
            Text(verbatim: sentence.element).letters(size)
        }
    }
}

/// One of the core's labels, as text.
struct Named: View {
    let text: String
    let size: Letters

    init(_ label: Labels, _ name: String = "", size: Letters = .body) {
        (text, self.size) = (label.text(name), size)
    }

    var body: some View { Text(verbatim: text).letters(size) }
}

/// Declination and convergence of the sheet.
struct NorthsView: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let sheet = model.snapshot?.sheet, !sheet.norths.isEmpty {
            Named(.norths, size: .label)
            Sentences(sheet.norths, .label)
        }
    }
}

/// The log so far, to be read off onto paper.
struct LegList: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let legs = model.snapshot?.legs, !legs.isEmpty {
            Named(.legsWalked, size: .heading)
            Sentences(legs.map(\.told))
        }
    }
}
