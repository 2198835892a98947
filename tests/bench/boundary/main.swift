import Foundation

// The Swift half of the bench of the boundary: the same calls as direct.rs, through the binding. Microseconds.

let warmUp = 200
let measured = 200
let smallCalls = 2000
/// The figure is that of the quickest twentieth, as in direct.rs.
let quick = 20
let fix = Record.fix(
    at: "2026-07-01T09:30:00Z", line: "Long Road", lines: nil, lineOdds: nil, open: nil, instrument: "sighting",
    sightings: [
        SightingRecord.bearing(landmark: "North tower", oneOf: nil, place: nil, spreadM: nil, bearing: "356 mag", spreadDeg: nil),
        SightingRecord.bearing(landmark: "East tower", oneOf: nil, place: nil, spreadM: nil, bearing: "041 mag", spreadDeg: nil),
    ])

func onSheet(_ file: String) throws -> FieldBook {
    let book = try FieldBook.open(config: OpenConfig())
    let text = try String(contentsOfFile: file, encoding: .utf8)
    _ = try book.take(record: .carry(at: "2026-07-01T09:00:00Z", format: "geojson", text: text))
    return book
}

func report(_ name: String, _ micros: Double) { print(name, String(format: "%.1f", micros)) }

func quickMicros<Made>(_ count: Int = measured, _ call: () throws -> Made) rethrows -> Double {
    for _ in 0..<(count == measured ? warmUp : count) { _ = try call() }
    var times: [Double] = []
    for _ in 0..<count {
        let start = DispatchTime.now().uptimeNanoseconds
        let made = try call()
        times.append(Double(DispatchTime.now().uptimeNanoseconds - start) / 1000)
        withExtendedLifetime(made) {}
    }
    return times.sorted()[count / quick]
}

let files = CommandLine.arguments.dropFirst()
guard let plain = files.first, let woven = files.last, files.count == 2 else { fatalError("usage: boundary PLAIN WOVEN") }
let book = try onSheet(plain)
report("fix", try quickMicros { try book.take(record: fix) })
report("snapshot", try quickMicros { try book.snapshot() })
report("call", quickMicros(smallCalls) { label(id: "label-undo", name: "") })
let drawn = try onSheet(woven)
_ = try drawn.take(record: fix)
report("chart", try quickMicros { try drawn.chart(of: "fix", width: 360, height: 640, letters: 14) })
let bytes = try drawn.chart(of: "fix", width: 360, height: 640, letters: 14)
report("decode", try quickMicros { try ChartList(bytes: bytes) })
