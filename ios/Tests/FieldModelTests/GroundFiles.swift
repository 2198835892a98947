import Foundation

/// Files as a walker brings them in; all of it invented.
enum GroundFiles {
    /// Long enough to be stopped while it is read.
    static var lanes: String {
        let lanes = (0..<8000).map { number in
            let east = "\(14 + Double(number) / 1e4)"
            let line = #""geometry":{"type":"LineString","coordinates":[[\#(east),46.0],[\#(east),46.01]]}"#
            return #"{"type":"Feature","properties":{"name":"Lane \#(number)","highway":"track"},\#(line)}"#
        }
        return #"{"type":"FeatureCollection","features":[\#(lanes.joined(separator: ","))]}"#
    }

    /// An even slope that rises to the east, with a hill on it and a knob; every 50 m.
    static var heights: String {
        let rows = (0..<150).map { row in (0..<170).map { height(Double($0), Double(row)) }.joined(separator: " ") }
        let head = "ncols 170\nnrows 150\nxllcorner 553600\nyllcorner 4646000\ncellsize 50\nNODATA_value -9999\n"
        return head + rows.joined(separator: "\n") + "\n"
    }

    private static func height(_ column: Double, _ row: Double) -> String {
        let (east, south) = (column - 100, row - 80)
        let hill: Double = 120 * exp(-(east * east + south * south) / 50)
        let (right, down) = (column - 72, row - 70)
        let knob: Double = 120 * exp(-(right * right + down * down) / 18)
        return "\(Int(1000 + 5 * column + hill + knob))"
    }
}
