// Tests: tests/batch/record_test.cpp (random studies there and back, each rule broken),
// tests/cli/forger_test.cpp (whatever is read can be told).
#include "kairos/batch/record.hpp"

#include "record_tables.hpp"

namespace kairos::batch {

using base::Json;

Json encode(const study::Study& study) {
  Json json = Json::object();
  FieldWriter writer(json);
  study_fields(writer, study);
  return json;
}

base::Result<study::Study> decode_study(const Json& json) {
  FirstDamage damage;
  FieldReader reader(json, damage);
  study::Study study;
  study_fields(reader, study);
  if (!damage.none()) return damage.fault();
  return study;
}

Json encode(const Findings& findings) {
  Json json = Json::object();
  FieldWriter writer(json);
  findings_fields(writer, findings);
  return json;
}

base::Result<Findings> decode_findings(const Json& json) {
  FirstDamage damage;
  FieldReader reader(json, damage);
  Findings findings;
  findings_fields(reader, findings);
  if (!damage.none()) return damage.fault();
  return findings;
}

}  // namespace kairos::batch
