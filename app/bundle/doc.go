// Package bundle carries a project with its photos to another machine as one
// zip file (APPNOTE 6.3 of the format, without its later extensions):
//
//	manifest.json   what is in the file, see Manifest
//	project.json    the project, as model.Export writes it
//	photos/NAME     a photo, under the name that the project calls it by
//
// A photo is called by the SHA-256 of what is in it (FIPS 180-4), so that its
// name is its checksum; the manifest holds those of the others. A photo that
// could not be read when the file was written is listed as missing.
//
// Read trusts nothing of what it is given. It holds a file to exactly this
// form, and reads all of it through, before anyone may write what is in it.
package bundle
