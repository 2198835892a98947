// Not run here (../settings.gradle.kts). What stands twice because Maven and Gradle share no file, here and in ../host/pom.xml:
// package, SDK levels, the versions of Kotlin and JNA, the sheet that comes along.
import org.jetbrains.kotlin.gradle.dsl.JvmTarget

plugins {
    id("com.android.application")
    id("org.jetbrains.kotlin.android")
}

val repository: File = rootDir.parentFile
val bridgeFolder: File = layout.buildDirectory.dir("bridge").get().asFile
val coreFolder: File = layout.buildDirectory.dir("core").get().asFile
val assetFolder: File = layout.buildDirectory.dir("sheet").get().asFile
val abis = listOf("arm64-v8a", "x86_64")

android {
    namespace = "gatepost.field"
    compileSdk = 35
    ndkVersion = "28.2.13676358" // r28; builds for pages of 16 KiB by itself

    defaultConfig {
        applicationId = "gatepost.field"
        minSdk = 26
        targetSdk = 35
        versionCode = 1
        versionName = "0.1"
        ndk { abiFilters += abis }
    }

    compileOptions {
        sourceCompatibility = JavaVersion.VERSION_17
        targetCompatibility = JavaVersion.VERSION_17
    }

    buildTypes {
        release {
            // JNA finds classes and fields by their names.
            isMinifyEnabled = false
        }
    }

    sourceSets {
        getByName("main") {
            kotlin.srcDir(bridgeFolder)
            jniLibs.srcDir(coreFolder)
            assets.srcDir(assetFolder)
        }
        // The tests run on the JVM through Maven (android/run): what they stand on is not Android's own.
        getByName("test") { kotlin.setSrcDirs(emptyList<String>()) }
    }
}

kotlin {
    compilerOptions { jvmTarget.set(JvmTarget.JVM_17) }
}

dependencies {
    implementation("net.java.dev.jna:jna:5.19.1@aar")
}

val bridge by tasks.registering(Exec::class) {
    description = "Generates the Kotlin half of the boundary from the core as it is built for this machine."
    workingDir = repository
    commandLine("bash", "bindings/bindgen/generate", "kotlin", bridgeFolder.path)
}

val core by tasks.registering(Exec::class) {
    description = "Builds the core for phones. Cargo knows what is up to date."
    workingDir = repository
    environment("ANDROID_NDK_HOME", androidComponents.sdkComponents.ndkDirectory.get().asFile.path)
    commandLine(listOf("bash", "android/core", coreFolder.path) + abis)
    // Both build in the workspace's target folder, where cargo lets in one at a time.
    mustRunAfter(bridge)
}

val sheet by tasks.registering(Copy::class) {
    description = "The sheet that a first start opens."
    from(File(repository, "tests/demo/velm-valley.toml"))
    into(assetFolder)
}

tasks.named("preBuild") { dependsOn(bridge, core, sheet) }
