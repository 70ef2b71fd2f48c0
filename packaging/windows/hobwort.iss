; Written with care, not run here. Installer for Windows, read by Inno Setup 6, after
;   py -m pip install -e .[package]
;   py -m PyInstaller packaging\bundle\hobwort.spec
;   iscc /DVersion=1.0.0 packaging\windows\hobwort.iss
; It installs for whoever runs it, asks for no administrator, and leaves recipes where they are.
[Setup]
AppId=org.hobwort.hobwort
AppName=Hobwort
AppVersion={#Version}
DefaultDirName={autopf}\Hobwort
DefaultGroupName=Hobwort
PrivilegesRequired=lowest
PrivilegesRequiredOverridesAllowed=dialog
ArchitecturesAllowed=x64compatible
ArchitecturesInstallIn64BitMode=x64compatible
ChangesAssociations=yes
LicenseFile=..\..\LICENSE
OutputDir=..\..\dist
OutputBaseFilename=hobwort-{#Version}-windows
UninstallDisplayIcon={app}\hobwort-window.exe

[Languages]
Name: "en"; MessagesFile: "compiler:Default.isl"
Name: "de"; MessagesFile: "compiler:Languages\German.isl"
Name: "fr"; MessagesFile: "compiler:Languages\French.isl"

[Files]
Source: "..\..\dist\hobwort\*"; DestDir: "{app}"; Flags: recursesubdirs ignoreversion

[Icons]
Name: "{group}\Hobwort"; Filename: "{app}\hobwort-window.exe"; AppUserModelID: "org.hobwort.hobwort"

[Registry]
Root: HKA; Subkey: "Software\Classes\.hobwort"; ValueType: string; ValueData: "Hobwort.Recipe"; Flags: uninsdeletevalue
Root: HKA; Subkey: "Software\Classes\Hobwort.Recipe"; ValueType: string; ValueData: "Hobwort recipe"; Flags: uninsdeletekey
Root: HKA; Subkey: "Software\Classes\Hobwort.Recipe\DefaultIcon"; ValueType: string; ValueData: "{app}\hobwort-window.exe,0"
Root: HKA; Subkey: "Software\Classes\Hobwort.Recipe\shell\open\command"; ValueType: string; ValueData: """{app}\hobwort-window.exe"" open ""%1"""
