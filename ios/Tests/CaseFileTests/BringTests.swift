import Foundation
import GatepostBridge
import Support
import Testing

/// Keeps what it was told, and breaks off after so many calls.
private final class Watched: Watch, @unchecked Sendable {
    private let most: Int
    private(set) var shares: [Double] = []

    init(most: Int) { self.most = most }

    func goesOn(share: Double) -> Bool {
        shares.append(share)
        return shares.count < most
    }
}

/// A file with a watch: progress is told and grows; one that is broken off leaves everything as it was.
@Suite struct BringTests {
    private let at = "2026-09-12T08:10:00Z"

    private func lane(_ number: Int) -> String {
        let east = 14.0 + Double(number) / 1e4
        let line = #""geometry":{"type":"LineString","coordinates":[[\#(east),46.0],[\#(east),46.01]]}"#
        return #"{"type":"Feature","properties":{"name":"Lane \#(number)","highway":"track"},\#(line)}"#
    }

    /// The code of the refusal, if it is one.
    private func refusal(_ act: () throws -> Reply) -> String? {
        do {
            _ = try act()
            return nil
        } catch GatepostError.Refused(let code, _) {
            return code
        } catch {
            return "\(error)"
        }
    }

    @Test func aFileWithAWatch() throws {
        let lanes = (0..<2000).map(lane).joined(separator: ",")
        let file = Data(#"{"type":"FeatureCollection","features":[\#(lanes)]}"#.utf8)
        let book = try FieldBook.fresh(after: [])
        let watch = Watched(most: .max)
        let reply = try book.bring(at: at, file: IncomingFile(name: "lanes.geojson", bytes: file), watch: watch)
        #expect(reply.snapshot.sheet?.lines.count == 24 && reply.snapshot.sheet?.linesLeft == 1976)
        #expect(watch.shares.count > 2 && watch.shares == watch.shares.sorted())
        #expect(watch.shares.last.map { $0 <= 1 } == true)
        let before = try book.snapshot()
        for most in [1, watch.shares.count / 2] {
            let again = IncomingFile(name: "again.geojson", bytes: file, credit: "nobody")
            let code = refusal { try book.bring(at: at, file: again, watch: Watched(most: most)) }
            #expect(code == "import-stopped")
            #expect(try book.snapshot() == before)
        }
    }
}
