#pragma once
/// @file
/// All of Tautline: setups, and what is made of them: work on paper, doubt, whole jobs.

#include "tautline.hpp"

#include "work/after_work.hpp"
#include "work/bench_work.hpp"
#include "work/do_work.hpp"
#include "work/held_neck.hpp"
#include "work/reset.hpp"
#include "work/work_done.hpp"

#include "doubt/stated_doubts.hpp"
#include "doubt/tolerance.hpp"
#include "doubt/uncertainty.hpp"

#include "job/answer.hpp"
#include "job/asked_results.hpp"
#include "job/bench_job.hpp"
#include "job/bench_step.hpp"
#include "job/compare.hpp"
#include "job/explanation.hpp"
#include "job/former_names.hpp"
#include "job/height_wishes.hpp"
#include "job/job_doubts.hpp"
#include "job/job_setups.hpp"
#include "job/meaning.hpp"
#include "job/named_numbers.hpp"
#include "job/numbered_paths.hpp"
#include "job/outcome.hpp"
#include "job/overlay.hpp"
#include "job/plan.hpp"
#include "job/reset_wishes.hpp"
#include "job/setting_steps.hpp"
#include "job/setup_plan.hpp"
#include "job/shortfalls.hpp"
#include "job/steps.hpp"
#include "job/wishes.hpp"
