public import Foundation

/// A short tone as the bytes of a sound file.
public struct Tone: Equatable, Sendable {
    public let hertz: Int
    public let milliseconds: Int

    public init(hertz: Int, milliseconds: Int) {
        (self.hertz, self.milliseconds) = (hertz, milliseconds)
    }

    /// A RIFF WAVE file: PCM, one channel, eight bits, a square wave: harsh, so that it is heard outdoors.
    public var wave: Data {
        let samples = (0..<Self.rate * milliseconds / 1000).map(sample)
        var file = Data("RIFF".utf8)
        file += bytes(UInt32(36 + samples.count)) + Data("WAVEfmt ".utf8)
        file += bytes(UInt32(16)) + bytes(UInt16(1)) + bytes(UInt16(1))
        file += bytes(UInt32(Self.rate)) + bytes(UInt32(Self.rate)) + bytes(UInt16(1)) + bytes(UInt16(8))
        return file + Data("data".utf8) + bytes(UInt32(samples.count)) + Data(samples)
    }

    private func sample(_ number: Int) -> UInt8 {
        number * hertz * 2 / Self.rate % 2 == 0 ? 176 : 80
    }

    private func bytes<Word: FixedWidthInteger>(_ word: Word) -> Data {
        withUnsafeBytes(of: word.littleEndian) { Data($0) }
    }

    /// Samples a second.
    private static let rate = 8_000
}
