package gatepost.field

import java.io.File

/** A file of the repository, by its path from the top. */
fun repositoryFile(path: String) = File(checkNotNull(System.getProperty("gatepost.root")), path).canonicalFile
