//! The kinds of lines and landmarks, in words of our own.

/// An enum of kinds with a plain English word for each.
macro_rules! kinds {
    ($(#[$about:meta])* $name:ident { $($variant:ident $word:literal,)+ }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name {
            $(#[doc = $word] $variant,)+
        }

        impl $name {
            /// All kinds.
            pub const ALL: [Self; [$($word),+].len()] = [$(Self::$variant),+];

            /// The word for it.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)+
                }
            }

            /// The kind that a word means, in one or in many, small or large letters.
            #[must_use]
            pub fn meant(word: &str) -> Option<Self> {
                let word = plain(word);
                let one = word.strip_suffix('s').unwrap_or(&word);
                let is = |kind: &Self| kind.word() == word || kind.word() == one;
                Self::ALL.into_iter().find(is).or_else(|| Self::other_word(&word).or_else(|| Self::other_word(one)))
            }
        }
    };
}

kinds! {
    /// What a line is.
    LineKind {
        Road "road", Track "track", Path "path", Creek "creek", River "river", Canal "canal", Ridge "ridge",
        Cliff "cliff", Fence "fence", Wall "wall", Hedge "hedge", Cutline "cutline", Railway "railway", PowerLine "power line",
        Cableway "cableway",
    }
}

kinds! {
    /// What a landmark is. `Landmark` is one of which the file does not say it.
    LandmarkKind {
        Summit "summit", Saddle "saddle", Mast "mast", Tower "tower", WaterTower "water tower", Chimney "chimney",
        WindTurbine "wind turbine", Windmill "windmill", Lighthouse "lighthouse", PowerPylon "power pylon", CablePylon "cableway pylon",
        Church "church", Worship "place of worship", Cross "cross", Castle "castle", Ruin "ruin", Hut "hut", Silo "silo", Tank "tank",
        SurveyMark "survey mark", Monument "monument", Cairn "cairn", Rock "rock", Cave "cave", Spring "spring",
        Waterfall "waterfall", Tree "tree", Signpost "signpost", Viewpoint "viewpoint", Bridge "bridge", Ford "ford",
        Building "building", Landmark "landmark",
    }
}

/// Small letters, single blanks, no underscores.
fn plain(word: &str) -> String {
    let spaced = word.to_lowercase().replace(['_', '-'], " ");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl LineKind {
    /// What a line is of which nobody says the kind, whichever way it came: neither the road that can be counted on nor a mere path
    /// (our choice).
    pub const UNSAID: Self = Self::Track;

    /// Other usual words for a kind (common practice, no source).
    fn other_word(word: &str) -> Option<Self> {
        match word {
            "street" | "lane" | "highway" | "way" => Some(Self::Road),
            "forest road" | "farm track" => Some(Self::Track),
            "trail" | "footpath" | "bridleway" => Some(Self::Path),
            "stream" | "brook" | "ditch" | "burn" => Some(Self::Creek),
            "railroad" | "rail" => Some(Self::Railway),
            "arete" | "arête" | "spur" | "embankment" | "dyke" | "dike" | "levee" => Some(Self::Ridge),
            "firebreak" | "fire break" => Some(Self::Cutline),
            "scarp" | "bluff" | "escarpment" => Some(Self::Cliff),
            "powerline" => Some(Self::PowerLine),
            _ => None,
        }
    }
}

impl LandmarkKind {
    /// Other usual words for a kind (common practice, no source).
    fn other_word(word: &str) -> Option<Self> {
        match word {
            "peak" | "hilltop" | "mountain" | "knob" => Some(Self::Summit),
            "pass" | "col" => Some(Self::Saddle),
            "antenna" | "aerial" => Some(Self::Mast),
            "pylon" | "power tower" | "transmission tower" => Some(Self::PowerPylon),
            "chapel" | "cathedral" | "churche" | "chapels" => Some(Self::Church),
            "house" | "barn" | "cabin" => Some(Self::Building),
            "trig point" | "survey point" | "triangulation point" => Some(Self::SurveyMark),
            "ruins" => Some(Self::Ruin),
            "boulder" | "stone" => Some(Self::Rock),
            "cave entrance" => Some(Self::Cave),
            "guidepost" => Some(Self::Signpost),
            _ => None,
        }
    }
}
