# Makes the Windows installer (msi, needs the WiX toolset) and the portable zip: packaging\package.ps1 msi | zip
# Written after packaging/package, whose steps it repeats; it has not been run by us on Windows yet.
param([Parameter(Mandatory)][ValidateSet("msi", "zip")][string]$Kind)
$ErrorActionPreference = "Stop"
Set-Location (Join-Path $PSScriptRoot "..")
$version = ([xml](Get-Content pom.xml)).project.version
$release = if ($env:JAVA_HOME -and (Test-Path "$env:JAVA_HOME\release")) { [int]([regex]'JAVA_VERSION="(\d+)').Match((Get-Content -Raw "$env:JAVA_HOME\release")).Groups[1].Value } else { 0 }
if ($release -lt 25) {
    [Console]::Error.WriteLine("JAVA_HOME names no Java development kit (JDK) of release 25 or newer. Install one with 'winget install EclipseAdoptium.Temurin.25.JDK', open a new window and try again.")
    exit 1
}
$env:MAVEN_OPTS = "--sun-misc-unsafe-memory-access=allow"
$maven = if ((Get-Command mvn -ErrorAction Ignore) -and ((mvn -v) -join " ") -match "Apache Maven (3\.([89]|\d\d)|[4-9])\.") { "mvn" } else { ".\mvnw.cmd" }
& $maven -q -B "-Dmaven.test.skip=true" clean package
$in = "target\package-input"; $dist = "target\dist"
Remove-Item -Recurse -Force $in, $dist, target\runtime -ErrorAction Ignore
New-Item -ItemType Directory $in, $dist | Out-Null
Copy-Item target\rollwright.jar $in; Copy-Item -Recurse target\lib $in\lib
$modules = & "$env:JAVA_HOME\bin\jdeps" --print-module-deps --ignore-missing-deps --multi-release 25 -cp "$in\lib\*" $in\rollwright.jar
$locales = @("en") + (Get-ChildItem src\main\resources\texts\pages_*.properties -ErrorAction Ignore | ForEach-Object { $_.BaseName.Substring(6).Replace("_", "-") })
& "$env:JAVA_HOME\bin\jlink" --add-modules "$modules,jdk.crypto.ec,jdk.crypto.mscapi,jdk.zipfs,jdk.charsets,jdk.localedata" --include-locales ($locales -join ",") --strip-debug --no-header-files --no-man-pages --compress zip-6 --output target\runtime
$options = Get-Content packaging\java-options | Where-Object { $_ } | ForEach-Object { "--java-options"; $_ }
& "$env:JAVA_HOME\bin\jpackage" --type app-image --name rollwright --app-version $version --vendor Rollwright --input $in --main-jar rollwright.jar --main-class org.rollwright.Main --runtime-image target\runtime --dest $dist --icon packaging\rollwright.ico --arguments serve --arguments --open @options
# the launcher itself trains, and the jars get a time that outlives an archive: packaging/package tells why
$app = "$dist\rollwright\app"; $cfg = "$app\rollwright.cfg"; $exe = "$dist\rollwright\rollwright.exe"
$made = (Get-Date -Date (Get-Date -Format "yyyy-MM-dd HH:mm"))
Get-ChildItem -Recurse $app -Filter *.jar | ForEach-Object { $_.LastWriteTime = $made }
$kept = Get-Content -Raw $cfg
Set-Content -NoNewline $cfg $kept.Replace("-XX:AOTCache=", "-XX:AOTCacheOutput=")
Start-Process -Wait $exe warm-up
Set-Content -NoNewline $cfg $kept
if ($Kind -eq "zip") {
    Copy-Item packaging\README.txt $dist\rollwright
    Compress-Archive $dist\rollwright "$dist\rollwright-$version-windows.zip"
} else {
    # per user: no administrator is needed, and an upgrade replaces the earlier version because its code stays the same
    & "$env:JAVA_HOME\bin\jpackage" --type msi --app-image $dist\rollwright --name Rollwright --app-version $version --dest $dist --win-per-user-install --win-menu --win-shortcut --win-upgrade-uuid 5d6b0b0e-6f0a-4f0e-9a51-6a1f0f6c2b7d
}
