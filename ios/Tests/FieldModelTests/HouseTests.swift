import Support
import Testing

/// The shell stays thin: no arithmetic of the trade, no network, the bridge behind the model, short files.
@Suite struct HouseTests {
    @Test func nothingIsReckonedHere() throws {
        for file in try shell() {
            for line in file.code { #expect(!isReckoning(unquoted(line)), "\(file.name): \(line)") }
        }
        #expect(isReckoning("let back = leg.bearingDegMag + 180") && isReckoning("x = 360 - sighting.bearingDegMag"))
        #expect(isReckoning("let left = pacesToGo - count") && isReckoning("sqrt(eastM)"))
        #expect(isReckoning(unquoted(#"say("to go", pacesToGo - count)"#)))
        #expect(isReckoning(unquoted(#""\(leg.bearingDegMag + 180)""#)))
    }

    /// A line without what stands in quotes; what is put into a sentence is no part of it.
    private func unquoted(_ line: Substring) -> Substring { line.replacing(#/"[^"\\]*"/#, with: "")[...] }

    private func isReckoning(_ line: Substring) -> Bool {
        let angles = #/\b(a?sin|a?cos|a?tan2?|sqrt|hypot|distance\(from)\b/#
        let sums = #/(Deg(Mag|Grid|True)?|[a-z]M|[Bb]earing|[Pp]aces\w*|[Ss]hare|[Ss]pread\w*)\s[-+*\/%]=?\s/#
        let reversed = #/\s[-+*\/%]\s[\w.]*(Deg(Mag|Grid|True)?|[a-z]M|[Bb]earing|[Pp]aces)\b/#
        return line.contains(angles) || line.contains(sums) || line.contains(reversed)
    }

    /// What is shown alone has a name of its own in the core.
    @Test func noSentenceIsPickedByItsPlaceOrItsWords() throws {
        let parts = #/(^|\W)(said|account|field)(\[|\.(dropFirst|dropLast|last|suffix|filter)(\W|$))/#
        let picks = { (line: Substring) in line.contains(parts) || line.contains("contains(\"±\")") }
        for file in try shell() {
            for line in file.code { #expect(!picks(line), "\(file.name): \(line)") }
        }
        for wrong in ["draft.account.dropFirst(1)", "fix.field[0]", #"strip.sure.contains("±")"#] {
            #expect(picks(wrong[...]))
        }
    }

    @Test func nothingReachesTheNetworkOrTheBridgePastTheModel() throws {
        for file in try shell() {
            #expect(!file.text.contains("URLSession") && !file.text.contains("import Network"), "\(file.name)")
            #expect(!file.text.contains("public import GatepostBridge"), "\(file.name)")
            #expect(!file.path.hasPrefix("ios/App") || !file.text.contains("GatepostBridge"), "\(file.name)")
        }
    }

    @Test func filesStayShort() throws {
        for folder in ["ios/App", "ios/Sources", "ios/Tests", "ios/Stub"] {
            let lengths = try Project.files(in: [folder]).map(\.lines.count).sorted()
            #expect(lengths[lengths.count / 2] <= 96 && lengths[lengths.count - 1] <= 200, "\(folder)")
        }
    }

    /// Colours come from the theme, words from the core.
    @Test func screensSayAndPaintNothingOfTheirOwn() throws {
        for file in try Project.files(in: ["ios/App"]) where file.name != "Inks.swift" && file.name != "Theme.swift" {
            for line in file.code {
                #expect(!line.contains("Color(red") && !line.contains("0x"), "\(file.name): \(line)")
                #expect(!line.contains(#/"[A-Z][a-z]+( [a-z]+)*"/#), "\(file.name): \(line)")
            }
        }
    }

    private func shell() throws -> [Project.File] { try Project.files(in: ["ios/App", "ios/Sources"]) }
}
