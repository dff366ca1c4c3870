// Package folder makes a folder whole or not at all, and replaces one without
// losing what others put there.
//
// A folder is made under a temporary name beside its place, synced, and put in
// place in one step. It lists its own files with their digests in [ListFile].
// Replacing it takes along every file that is not on the list of the old one;
// what cannot be taken along (folders, links, a listed file that was changed) is
// not touched, and the replacing refused. On Linux the old and the new folder
// change places in one step; elsewhere it takes two renames, and what a run
// killed between them left is put right by the next run of the same folder.
//
// What a killed run leaves is its temporary folder and a lock file beside it,
// whose lock is free once the run is dead. The next run clears both away.
package folder
