import Support
import Testing

@testable import FieldModel

/// The core's words for the controls.
@Suite struct LabelTests {
    /// Their names and identifiers, as their files have them.
    private static var all: [(name: Substring, id: Substring)] {
        get throws {
            let found = try Project.files(in: ["ios/Sources/FieldModel"]).flatMap { file in
                file.text.matches(of: #/static let (\w+) = Labels\("([\w-]+)"\)/#).map { ($0.output.1, $0.output.2) }
            }
            return found.map { (name: $0.0, id: $0.1) }
        }
    }

    @Test func everyLabelHasItsWords() throws {
        let all = try Self.all
        #expect(all.count > 150 && Set(all.map(\.id)).count == all.count)
        for label in all {
            let told = Labels(String(label.id)).text
            #expect(told != label.id && !told.isEmpty, "\(label.id)")
        }
    }

    @Test func aLabelSpeaksOfAName() {
        #expect(Labels.sight.text("Sorn chapel").contains("Sorn chapel"))
    }

    /// Each stands on a screen: the core keeps no word for nobody.
    @Test func everyLabelIsUsed() throws {
        let screens = try Project.files(in: ["ios/App"]).map(\.text).joined()
        for label in try Self.all { #expect(screens.contains(".\(label.name)"), "\(label.name)") }
    }
}
