// Standard input, output and error as the program finds them.
#pragma once

namespace kairos::cli {

// Makes descriptors 0 to 2 belong to the standard streams, also where the caller has closed some
// of them (`2>&-`). Otherwise the next file to be opened would take the number, and what is meant
// for the stream would be written into it. One that was closed still fails when it is used: nobody
// reads there what was printed. Called before anything else is opened; false: it cannot be done.
bool hold_standard_streams();

}  // namespace kairos::cli
