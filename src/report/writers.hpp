// The writers, one function a format; formats.cpp gives each its name and file.
#pragma once

#include "kairos/report/writer.hpp"

namespace kairos::report {

base::Status write_text(const Collection& collection, base::ByteSink& sink);
base::Status write_epd(const Collection& collection, base::ByteSink& sink);
base::Status write_why_nots(const Collection& collection, base::ByteSink& sink);
base::Status write_fen(const Collection& collection, base::ByteSink& sink);
base::Status write_json_lines(const Collection& collection, base::ByteSink& sink);
base::Status write_annotated_pgn(const Collection& collection, base::ByteSink& sink);
base::Status write_csv(const Collection& collection, base::ByteSink& sink);
base::Status write_puzzle_pgn(const Collection& collection, base::ByteSink& sink);
base::Status write_html(const Collection& collection, base::ByteSink& sink);
base::Status write_questions(const Collection& collection, base::ByteSink& sink);
base::Status write_stage(const Collection& collection, base::ByteSink& sink);
base::Status write_sheet(const Collection& collection, base::ByteSink& sink);
base::Status write_recap(const Collection& collection, base::ByteSink& sink);

}  // namespace kairos::report
