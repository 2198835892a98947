package gatepost.field

/** Marks code that needs a newer system than the oldest one supported and stands behind a check of its version. */
@Retention(AnnotationRetention.BINARY)
@Target(AnnotationTarget.FUNCTION, AnnotationTarget.CLASS)
annotation class NewerApi
