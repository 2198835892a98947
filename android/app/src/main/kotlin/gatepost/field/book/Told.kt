package gatepost.field.book

import gatepost.bridge.Answer
import gatepost.bridge.GatepostException
import gatepost.bridge.Snapshot

/** What a screen gets after each record: the sentences, the state, whether the record was refused and by which code, and the answer to a question. */
class Told(val said: List<String>, val snapshot: Snapshot?, val refused: Boolean, val answer: Answer? = null, val code: String? = null)

/** Which refusal it was. */
val GatepostException.code: String?
    get() = when (this) {
        is GatepostException.Refused -> code
        is GatepostException.Logbook -> code
        else -> null
    }

/** The sentence for a person. */
val GatepostException.sentence: String
    get() = when (this) {
        is GatepostException.Refused -> sentence
        is GatepostException.Logbook -> sentence
        is GatepostException.Shut -> sentence
        is GatepostException.Inside -> sentence
    }
