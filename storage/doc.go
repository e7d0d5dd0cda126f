// Package storage keeps the notebook: one bbolt file with all projects, their
// saved states and their journals, and beside it a folder of photos and one of
// backups.
//
// Every method that changes something returns only when the change is on the
// disk. Every record lies in an envelope with its own checksum that is bound
// to the record's place, since bbolt itself checks only its two meta pages; a
// damaged record is reported by name and the rest goes on. Before bbolt sees a
// file, the package reads its pages with plain reads and refuses what is cut
// off, foreign or tangled, so that bbolt is never run on a file that could
// make it panic or loop. No method panics or lets a fault of the mapped file
// end the program.
//
// Buckets of the file:
//
//	meta      format, schema, created, program
//	cards     project ID -> Card
//	settings  name -> value
//	projects  project ID -> bucket
//	            head       the current revision and the last number given
//	            revisions  number -> Revision
//	            bodies     number -> Project without its journal
//	            journal    entry ID -> Entry
//	shelf     head       the current state and the last number given
//	          revisions  number -> Revision
//	          bodies     number -> Shelf without what was taken from it
//	          uses       project ID -> ProjectUses, kept with each save of the project
//
// Values are JSON in an envelope, see seal. Numbers are eight bytes, big end
// first. History is thinned by age as it grows, see thin, and the room that this
// leaves free is given back by Compact. A notebook belongs on a local disk: locks and memory maps are not
// safe on network drives or in folders that another program synchronises.
package storage
