import GatepostBridge
import Support
import Testing

/// The case files through the binding, as `tests/python/run.py` runs them.
@Suite struct CaseFileTests {
    @Test func areFound() {
        #expect(!Project.caseFiles.isEmpty)
    }

    @Test(arguments: Project.caseFiles) func hold(name: String) throws {
        let file = try Project.caseFile(name)
        var tally = Tally(topic: try #require(file["topic"]?.string))
        for wanted in file["cases"]?.list ?? [] {
            try runCase(wanted, tolerance: file["tolerance"], &tally)
        }
        for wanted in file["invalid"]?.list ?? [] {
            try runInvalid(wanted, &tally)
        }
        tally.tell()
        #expect(tally.held > 0, "\(name) holds no case that was checked")
    }

    private func runCase(_ wanted: JSONText, tolerance: JSONText?, _ tally: inout Tally) throws {
        let reply = try reply(to: wanted)
        let expected = try #require(wanted["expect"])
        for path in expected.names.sorted() {
            let (found, value) = (reply.value(at: path), try #require(expected[path]))
            let held = JSONText.agree(found, value, within: tolerance?[path]?.number)
            tally.check("case \(id(wanted)) \(path)", held, found: found, wanted: value)
        }
    }

    private func runInvalid(_ wanted: JSONText, _ tally: inout Tally) throws {
        let code = try reply(to: wanted).value(at: "refusal.code")
        let expected = try #require(wanted["refusal"])
        tally.check("invalid \(id(wanted))", JSONText.same(code, expected), found: code, wanted: expected)
    }

    private func reply(to wanted: JSONText) throws -> JSONText {
        try FieldBook.fresh(after: wanted["before"]?.list ?? []).tell(#require(wanted["record"]))
    }

    private func id(_ wanted: JSONText) -> String { wanted["id"]?.string ?? "without id" }
}
