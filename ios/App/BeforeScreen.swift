import FieldModel
import SwiftUI
import UniformTypeIdentifiers

/// At the kitchen table: the sheet and the pace.
struct BeforeScreen: View {
    let goOn: @MainActor () -> Void
    @Environment(FieldModel.self) private var model
    @State private var choosing = false

    var body: some View {
        Page {
            sheet
            SaidView()
            Outlined(.openSheet) { choosing = true }
            Outlined(.sheetByHand) { model.openPad(.hand) }
            Named(.typeSheet)
            TextField(text: typed, axis: .vertical) { Text(verbatim: Labels.sheetField.text) }
                .letters(.body)
            if !model.draft.sheet.isEmpty {
                Outlined(.carry) { model.carry(model.draft.sheet, as: .init(of: model.draft.sheet)) }
            }
            if let pace = model.snapshot?.pace { Text(verbatim: pace.told).letters(.body) }
            Outlined(.setPace) { model.openPad(.pace) }
            compass
        } foot: {
            next
        }
        .fileImporter(isPresented: $choosing, allowedContentTypes: [.data]) { result in
            if case .success(let file) = result { Task { await open(file) } }
        }
    }

    @ViewBuilder private var sheet: some View {
        if let sheet = model.snapshot?.sheet {
            Text(verbatim: sheet.name).letters(.heading)
            Text(verbatim: sheet.grid).letters(.body)
            NorthsView()
            Sentences(model.snapshot?.sheet?.ground ?? [], .label)
            if model.snapshot?.car == nil {
                Outlined(.addToSheet) { model.openPad(.parts) }
                BringView()
            }
        } else {
            Named(.whichSheet, size: .heading)
        }
    }

    /// The check needs a place, which the sheet gives.
    @ViewBuilder private var compass: some View {
        if model.snapshot?.sheet != nil {
            if let told = model.snapshot?.compass { Sentences([told]) }
            ForEach(Array(model.draft.trials.enumerated()), id: \.offset) { trial in
                Text(verbatim: "\(trial.element.read.told), \(trial.element.known?.told ?? "")").letters(.body)
            }
            Outlined(.checkCompass) { model.openPad(.compassRead) }
            if !model.draft.trials.isEmpty { Outlined(.keepCompass) { model.keepCompass() } }
        }
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedSheet
    }

    private func open(_ file: URL) async {
        let text = String(decoding: await file.lentBytes, as: UTF8.self)
        model.carry(text, as: .init(of: text))
    }

    /// Another trip on the sheet that is there stands first once the last one is closed.
    @ViewBuilder private var next: some View {
        if let sheet = model.snapshot?.sheet, model.snapshot?.stage == .afterwards {
            Primary(.againOn, sheet.name) { model.carryAgain() }
        } else if model.snapshot?.sheet == nil {
            Primary(.openSheet) { choosing = true }
        } else if model.snapshot?.stage == .besideTheLine {
            Primary(.toTheLine, act: goOn)
        } else {
            Primary((model.snapshot?.stage ?? .before).label, act: goOn)
        }
    }
}
