import AVFoundation
import FieldModel
import Observation

/// The tones of the count. They are silent with the phone's switch and stop no music.
@MainActor
@Observable
final class Tones {
    @ObservationIgnored private let single = player(.init(hertz: 880, milliseconds: 20))
    @ObservationIgnored private let ten = player(.init(hertz: 880, milliseconds: 60))
    @ObservationIgnored private let hundred = player(.init(hertz: 440, milliseconds: 300))

    init() {
        // Without leave to sound the vibration answers alone.
        try? AVAudioSession.sharedInstance().setCategory(.ambient)
    }

    func counted(_ count: Int) {
        let tone = count % 100 == 0 ? hundred : count % 10 == 0 ? ten : single
        tone?.currentTime = 0
        _ = tone?.play()
    }

    private static func player(_ tone: Tone) -> AVAudioPlayer? {
        let player = try? AVAudioPlayer(data: tone.wave)
        _ = player?.prepareToPlay()
        return player
    }
}
