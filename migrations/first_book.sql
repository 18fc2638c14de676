CREATE TABLE quantities (
    code TEXT NOT NULL,
    content TEXT NOT NULL,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_quantities PRIMARY KEY (id),
    CONSTRAINT uq_quantities_code UNIQUE (code)
) STRICT;
CREATE TABLE instruments (
    name TEXT NOT NULL,
    kind TEXT NOT NULL,
    serial TEXT NOT NULL,
    percent TEXT,
    digits TEXT,
    step TEXT,
    calibrated_on TEXT,
    due_on TEXT,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_instruments PRIMARY KEY (id)
) STRICT;
CREATE TABLE transport_types (
    name TEXT NOT NULL,
    arrangement TEXT NOT NULL,
    has_transit_lock INTEGER NOT NULL,
    not_testable TEXT NOT NULL,
    sheet TEXT NOT NULL,
    safety_circuits TEXT NOT NULL,
    note TEXT NOT NULL,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_transport_types PRIMARY KEY (id),
    CONSTRAINT uq_transport_types_name UNIQUE (name)
) STRICT;
CREATE TABLE parts (
    code TEXT NOT NULL,
    words TEXT NOT NULL,
    unit TEXT NOT NULL,
    price INTEGER NOT NULL,
    vat_rate INTEGER NOT NULL,
    safety_type TEXT NOT NULL,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_parts PRIMARY KEY (id),
    CONSTRAINT uq_parts_code UNIQUE (code)
) STRICT;
CREATE TABLE find_words (
    kind TEXT NOT NULL,
    ref_id INTEGER NOT NULL,
    words TEXT NOT NULL,
    tails TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_find_words PRIMARY KEY (id),
    CONSTRAINT uq_find_words_kind_ref_id UNIQUE (kind, ref_id)
) STRICT;
CREATE TABLE history (
    seq INTEGER NOT NULL,
    at INTEGER NOT NULL,
    staff_id INTEGER,
    action TEXT NOT NULL,
    action_values TEXT NOT NULL,
    happened TEXT NOT NULL,
    row_table TEXT NOT NULL,
    row_id INTEGER NOT NULL,
    job_id INTEGER,
    fields TEXT NOT NULL,
    hash TEXT NOT NULL,
    CONSTRAINT pk_history PRIMARY KEY (seq)
) STRICT;
CREATE INDEX ix_history_job_id ON history (job_id);
CREATE TABLE settings (
    "key" TEXT NOT NULL,
    value TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_settings PRIMARY KEY (id),
    CONSTRAINT uq_settings_key UNIQUE ("key")
) STRICT;
CREATE TABLE number_series (
    name TEXT NOT NULL,
    next INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_number_series PRIMARY KEY (id),
    CONSTRAINT uq_number_series_name UNIQUE (name)
) STRICT;
CREATE TABLE customers (
    name TEXT NOT NULL,
    phone TEXT NOT NULL,
    phone_digits TEXT NOT NULL,
    email TEXT NOT NULL,
    street TEXT NOT NULL,
    postcode TEXT NOT NULL,
    city TEXT NOT NULL,
    country TEXT NOT NULL,
    vat_id TEXT NOT NULL,
    ring_when TEXT NOT NULL,
    language TEXT NOT NULL,
    note TEXT NOT NULL,
    created_at INTEGER NOT NULL,
    merged_into_id INTEGER,
    erased_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_customers PRIMARY KEY (id),
    CONSTRAINT fk_customers_merged_into_id_customers FOREIGN KEY(merged_into_id) REFERENCES customers (id)
) STRICT;
CREATE INDEX ix_customers_merged_into_id ON customers (merged_into_id);
CREATE INDEX ix_customers_phone_digits ON customers (phone_digits);
CREATE TABLE staff (
    name TEXT NOT NULL,
    active INTEGER NOT NULL,
    pin_hash TEXT NOT NULL,
    pin_failures INTEGER NOT NULL,
    pin_failed_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_staff PRIMARY KEY (id)
) STRICT;
CREATE TABLE limits (
    quantity TEXT NOT NULL,
    transport_type_id INTEGER,
    unit_maker TEXT NOT NULL,
    unit_model TEXT NOT NULL,
    detail TEXT NOT NULL,
    relative_to TEXT NOT NULL,
    low TEXT,
    high TEXT,
    must INTEGER NOT NULL,
    source TEXT NOT NULL,
    retired INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_limits PRIMARY KEY (id),
    CONSTRAINT fk_limits_transport_type_id_transport_types FOREIGN KEY(transport_type_id) REFERENCES transport_types (id)
) STRICT;
CREATE INDEX ix_limits_quantity ON limits (quantity);
CREATE INDEX ix_limits_transport_type_id ON limits (transport_type_id);
CREATE TABLE transports (
    type_id INTEGER NOT NULL,
    marking TEXT NOT NULL,
    label_current TEXT,
    shelf TEXT NOT NULL,
    note TEXT NOT NULL,
    created_at INTEGER NOT NULL,
    scrapped_at INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_transports PRIMARY KEY (id),
    CONSTRAINT fk_transports_type_id_transport_types FOREIGN KEY(type_id) REFERENCES transport_types (id)
) STRICT;
CREATE INDEX ix_transports_type_id ON transports (type_id);
CREATE TABLE units (
    maker TEXT NOT NULL,
    model TEXT NOT NULL,
    serial TEXT NOT NULL,
    serial_key TEXT NOT NULL,
    serial_unreadable INTEGER NOT NULL,
    mains_class TEXT NOT NULL,
    mains_voltage TEXT NOT NULL,
    look TEXT NOT NULL,
    note TEXT NOT NULL,
    customer_id INTEGER,
    created_at INTEGER NOT NULL,
    is_donor INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_units PRIMARY KEY (id),
    CONSTRAINT fk_units_customer_id_customers FOREIGN KEY(customer_id) REFERENCES customers (id)
) STRICT;
CREATE INDEX ix_units_customer_id ON units (customer_id);
CREATE INDEX ix_units_model ON units (maker, model);
CREATE INDEX ix_units_serial_key ON units (serial_key);
CREATE TABLE history_texts (
    id INTEGER NOT NULL,
    seq INTEGER NOT NULL,
    "column" TEXT NOT NULL,
    side TEXT NOT NULL,
    salt TEXT NOT NULL,
    text TEXT NOT NULL,
    CONSTRAINT pk_history_texts PRIMARY KEY (id),
    CONSTRAINT fk_history_texts_seq_history FOREIGN KEY(seq) REFERENCES history (seq)
) STRICT;
CREATE INDEX ix_history_texts_seq ON history_texts (seq);
CREATE TABLE staff_marks (
    staff_id INTEGER NOT NULL,
    mark TEXT NOT NULL,
    proof TEXT NOT NULL,
    proof_from TEXT NOT NULL,
    dated TEXT NOT NULL,
    ends TEXT,
    id INTEGER NOT NULL,
    CONSTRAINT pk_staff_marks PRIMARY KEY (id),
    CONSTRAINT fk_staff_marks_staff_id_staff FOREIGN KEY(staff_id) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_staff_marks_staff_id ON staff_marks (staff_id);
CREATE TABLE jobs (
    number INTEGER NOT NULL,
    unit_id INTEGER NOT NULL,
    customer_id INTEGER NOT NULL,
    stage TEXT NOT NULL,
    waiting TEXT NOT NULL,
    outcome TEXT,
    taken_in_at INTEGER NOT NULL,
    taken_in_by INTEGER NOT NULL,
    promised_on TEXT,
    promised_time TEXT NOT NULL,
    ready_at INTEGER,
    handed_back_at INTEGER,
    fault TEXT NOT NULL,
    fault_short TEXT NOT NULL,
    error_shown TEXT NOT NULL,
    marks TEXT NOT NULL,
    opened_before INTEGER,
    screws_missing INTEGER,
    goes_by_post INTEGER NOT NULL,
    transit_lock TEXT NOT NULL,
    smell TEXT NOT NULL,
    rust TEXT NOT NULL,
    shelf TEXT NOT NULL,
    ring_when TEXT NOT NULL,
    parts_returned INTEGER NOT NULL,
    go_ahead_limit INTEGER,
    diagnosis_fee INTEGER,
    diagnosis_fee_told INTEGER NOT NULL,
    fault_group TEXT,
    cause TEXT,
    cause_note TEXT NOT NULL,
    comeback_of_id INTEGER,
    comeback TEXT,
    comeback_reason TEXT NOT NULL,
    finals_waived_reason TEXT NOT NULL,
    guarantee_until TEXT,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_jobs PRIMARY KEY (id),
    CONSTRAINT uq_jobs_number UNIQUE (number),
    CONSTRAINT fk_jobs_unit_id_units FOREIGN KEY(unit_id) REFERENCES units (id),
    CONSTRAINT fk_jobs_customer_id_customers FOREIGN KEY(customer_id) REFERENCES customers (id),
    CONSTRAINT fk_jobs_taken_in_by_staff FOREIGN KEY(taken_in_by) REFERENCES staff (id),
    CONSTRAINT fk_jobs_comeback_of_id_jobs FOREIGN KEY(comeback_of_id) REFERENCES jobs (id)
) STRICT;
CREATE INDEX ix_jobs_comeback_of_id ON jobs (comeback_of_id);
CREATE INDEX ix_jobs_customer_id ON jobs (customer_id);
CREATE INDEX ix_jobs_handed_back_at ON jobs (handed_back_at);
CREATE INDEX ix_jobs_promised_on ON jobs (promised_on, (promised_time = ''), promised_time, number, stage);
CREATE INDEX ix_jobs_stage_promised_on ON jobs (stage, promised_on);
CREATE INDEX ix_jobs_unit_id ON jobs (unit_id);
CREATE TABLE flags (
    rule TEXT NOT NULL,
    rule_version INTEGER NOT NULL,
    level TEXT NOT NULL,
    subject TEXT NOT NULL,
    job_id INTEGER,
    unit_id INTEGER,
    transport_id INTEGER,
    detail TEXT NOT NULL,
    word TEXT NOT NULL,
    sentence TEXT NOT NULL,
    clears TEXT NOT NULL,
    closing TEXT NOT NULL,
    owner_sees INTEGER NOT NULL,
    needs TEXT,
    raised_at INTEGER NOT NULL,
    cleared_at INTEGER,
    cleared_by INTEGER,
    cleared_reason TEXT NOT NULL,
    acknowledged_at INTEGER,
    acknowledged_by INTEGER,
    acknowledged_reason TEXT NOT NULL,
    answered_mark TEXT,
    id INTEGER NOT NULL,
    CONSTRAINT pk_flags PRIMARY KEY (id),
    CONSTRAINT fk_flags_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_flags_unit_id_units FOREIGN KEY(unit_id) REFERENCES units (id),
    CONSTRAINT fk_flags_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_flags_cleared_by_staff FOREIGN KEY(cleared_by) REFERENCES staff (id),
    CONSTRAINT fk_flags_acknowledged_by_staff FOREIGN KEY(acknowledged_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_flags_job_id ON flags (job_id);
CREATE INDEX ix_flags_transport_id ON flags (transport_id);
CREATE INDEX ix_flags_unit_id ON flags (unit_id);
CREATE UNIQUE INDEX uq_flags_open ON flags (rule, subject, coalesce(job_id, 0), coalesce(unit_id, 0), coalesce(transport_id, 0), detail) WHERE cleared_at IS NULL;
CREATE TABLE safety_tests (
    job_id INTEGER NOT NULL,
    unit_id INTEGER NOT NULL,
    mains_class TEXT NOT NULL,
    standard TEXT NOT NULL,
    edition TEXT NOT NULL,
    instrument_id INTEGER,
    instrument_overdue INTEGER NOT NULL,
    result TEXT NOT NULL,
    case_closed_at INTEGER,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_safety_tests PRIMARY KEY (id),
    CONSTRAINT fk_safety_tests_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_safety_tests_unit_id_units FOREIGN KEY(unit_id) REFERENCES units (id),
    CONSTRAINT fk_safety_tests_instrument_id_instruments FOREIGN KEY(instrument_id) REFERENCES instruments (id),
    CONSTRAINT fk_safety_tests_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_safety_tests_instrument_id ON safety_tests (instrument_id);
CREATE INDEX ix_safety_tests_job_id ON safety_tests (job_id);
CREATE INDEX ix_safety_tests_unit_id ON safety_tests (unit_id);
CREATE TABLE fittings (
    transport_id INTEGER NOT NULL,
    unit_id INTEGER NOT NULL,
    place TEXT NOT NULL,
    fitted_at INTEGER NOT NULL,
    fitted_job_id INTEGER,
    removed_at INTEGER,
    removed_job_id INTEGER,
    as_maker INTEGER NOT NULL,
    belongs_type TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_fittings PRIMARY KEY (id),
    CONSTRAINT fk_fittings_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_fittings_unit_id_units FOREIGN KEY(unit_id) REFERENCES units (id),
    CONSTRAINT fk_fittings_fitted_job_id_jobs FOREIGN KEY(fitted_job_id) REFERENCES jobs (id),
    CONSTRAINT fk_fittings_removed_job_id_jobs FOREIGN KEY(removed_job_id) REFERENCES jobs (id)
) STRICT;
CREATE INDEX ix_fittings_fitted_job_id ON fittings (fitted_job_id);
CREATE INDEX ix_fittings_removed_job_id ON fittings (removed_job_id);
CREATE INDEX ix_fittings_transport_id ON fittings (transport_id, fitted_at);
CREATE INDEX ix_fittings_unit_id ON fittings (unit_id, fitted_at);
CREATE UNIQUE INDEX uq_fittings_open_place ON fittings (unit_id, place) WHERE removed_at IS NULL;
CREATE UNIQUE INDEX uq_fittings_open_transport ON fittings (transport_id) WHERE removed_at IS NULL;
CREATE TABLE part_changes (
    transport_id INTEGER NOT NULL,
    job_id INTEGER NOT NULL,
    words TEXT NOT NULL,
    same_type INTEGER NOT NULL,
    label_before TEXT,
    label_after TEXT,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_part_changes PRIMARY KEY (id),
    CONSTRAINT fk_part_changes_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_part_changes_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_part_changes_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_part_changes_job_id ON part_changes (job_id);
CREATE INDEX ix_part_changes_transport_id ON part_changes (transport_id);
CREATE TABLE trials (
    job_id INTEGER NOT NULL,
    transport_id INTEGER,
    number INTEGER NOT NULL,
    change TEXT NOT NULL,
    words TEXT NOT NULL,
    reference TEXT NOT NULL,
    outcome TEXT,
    "left" TEXT NOT NULL,
    rung_before INTEGER,
    rung_after INTEGER,
    order_reason TEXT NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_trials PRIMARY KEY (id),
    CONSTRAINT fk_trials_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_trials_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_trials_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_trials_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_trials_job_id ON trials (job_id);
CREATE INDEX ix_trials_transport_id ON trials (transport_id);
CREATE TABLE case_events (
    job_id INTEGER NOT NULL,
    opened INTEGER NOT NULL,
    assumed INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_case_events PRIMARY KEY (id),
    CONSTRAINT fk_case_events_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_case_events_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_case_events_job_id ON case_events (job_id);
CREATE TABLE part_moves (
    part_id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    job_id INTEGER,
    price INTEGER NOT NULL,
    vat_rate INTEGER NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_part_moves PRIMARY KEY (id),
    CONSTRAINT fk_part_moves_part_id_parts FOREIGN KEY(part_id) REFERENCES parts (id),
    CONSTRAINT fk_part_moves_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_part_moves_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_part_moves_job_id ON part_moves (job_id);
CREATE INDEX ix_part_moves_part_id ON part_moves (part_id);
CREATE TABLE labour (
    job_id INTEGER NOT NULL,
    words TEXT NOT NULL,
    hours INTEGER NOT NULL,
    rate INTEGER NOT NULL,
    vat_rate INTEGER NOT NULL,
    charged INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_labour PRIMARY KEY (id),
    CONSTRAINT fk_labour_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_labour_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_labour_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_labour_job_id ON labour (job_id);
CREATE TABLE attachments (
    job_id INTEGER,
    sha256 TEXT NOT NULL,
    name TEXT NOT NULL,
    media_type TEXT NOT NULL,
    size INTEGER NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_attachments PRIMARY KEY (id),
    CONSTRAINT fk_attachments_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_attachments_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_attachments_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_attachments_job_id ON attachments (job_id);
CREATE INDEX ix_attachments_sha256 ON attachments (sha256);
CREATE TABLE hand_backs (
    job_id INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    collector TEXT NOT NULL,
    collector_name TEXT NOT NULL,
    proof TEXT NOT NULL,
    paid_words TEXT NOT NULL,
    shown_and_told INTEGER NOT NULL,
    unsafe INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_hand_backs PRIMARY KEY (id),
    CONSTRAINT uq_hand_backs_job_id UNIQUE (job_id),
    CONSTRAINT fk_hand_backs_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_hand_backs_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE TABLE unsafe_returns (
    job_id INTEGER NOT NULL,
    reason TEXT NOT NULL,
    law_looked_at INTEGER NOT NULL,
    plug_tagged INTEGER NOT NULL,
    signed INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_unsafe_returns PRIMARY KEY (id),
    CONSTRAINT uq_unsafe_returns_job_id UNIQUE (job_id),
    CONSTRAINT fk_unsafe_returns_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_unsafe_returns_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE TABLE unsafe_requests (
    job_id INTEGER NOT NULL,
    what TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    refused_at INTEGER,
    refused_by INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_unsafe_requests PRIMARY KEY (id),
    CONSTRAINT fk_unsafe_requests_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_unsafe_requests_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_unsafe_requests_refused_by_staff FOREIGN KEY(refused_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_unsafe_requests_job_id ON unsafe_requests (job_id);
CREATE TABLE reported_faults (
    job_id INTEGER NOT NULL,
    word TEXT NOT NULL,
    how TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_reported_faults PRIMARY KEY (id),
    CONSTRAINT fk_reported_faults_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id)
) STRICT;
CREATE INDEX ix_reported_faults_job_id ON reported_faults (job_id);
CREATE TABLE things_left (
    job_id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    returned_at INTEGER,
    returned_by INTEGER,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_things_left PRIMARY KEY (id),
    CONSTRAINT fk_things_left_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_things_left_returned_by_staff FOREIGN KEY(returned_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_things_left_job_id ON things_left (job_id);
CREATE TABLE job_notes (
    job_id INTEGER NOT NULL,
    text TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_job_notes PRIMARY KEY (id),
    CONSTRAINT fk_job_notes_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_job_notes_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_job_notes_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_job_notes_job_id ON job_notes (job_id);
CREATE TABLE messages (
    job_id INTEGER NOT NULL,
    to_customer INTEGER NOT NULL,
    way TEXT NOT NULL,
    text TEXT NOT NULL,
    spoke_with TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_messages PRIMARY KEY (id),
    CONSTRAINT fk_messages_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_messages_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_messages_job_id ON messages (job_id);
CREATE TABLE charges (
    job_id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    unit TEXT NOT NULL,
    price INTEGER NOT NULL,
    price_with_vat INTEGER,
    vat_rate INTEGER NOT NULL,
    category TEXT NOT NULL,
    vat_reason TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_charges PRIMARY KEY (id),
    CONSTRAINT fk_charges_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_charges_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_charges_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_charges_job_id ON charges (job_id);
CREATE TABLE invoices (
    series TEXT NOT NULL,
    number INTEGER NOT NULL,
    job_id INTEGER NOT NULL,
    customer_id INTEGER NOT NULL,
    issued_on TEXT NOT NULL,
    issued_at INTEGER NOT NULL,
    issued_by INTEGER NOT NULL,
    currency TEXT NOT NULL,
    lines_net INTEGER NOT NULL,
    discount INTEGER NOT NULL,
    charge INTEGER NOT NULL,
    net INTEGER NOT NULL,
    vat INTEGER NOT NULL,
    gross INTEGER NOT NULL,
    prepaid INTEGER NOT NULL,
    rounding INTEGER NOT NULL,
    due INTEGER NOT NULL,
    groups TEXT NOT NULL,
    line_count INTEGER NOT NULL,
    fees_only INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_invoices PRIMARY KEY (id),
    CONSTRAINT uq_invoices_series_number UNIQUE (series, number),
    CONSTRAINT fk_invoices_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_invoices_customer_id_customers FOREIGN KEY(customer_id) REFERENCES customers (id),
    CONSTRAINT fk_invoices_issued_by_staff FOREIGN KEY(issued_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_invoices_customer_id ON invoices (customer_id);
CREATE INDEX ix_invoices_job_id ON invoices (job_id);
CREATE TABLE modifications (
    job_id INTEGER NOT NULL,
    unit_id INTEGER,
    transport_id INTEGER,
    trial_id INTEGER,
    ours INTEGER NOT NULL,
    kind TEXT NOT NULL,
    circuit TEXT NOT NULL,
    law TEXT NOT NULL,
    reference TEXT NOT NULL,
    part_before TEXT NOT NULL,
    part_after TEXT NOT NULL,
    value_before TEXT,
    value_after TEXT,
    unit TEXT NOT NULL,
    tolerance_before TEXT,
    tolerance_after TEXT,
    rating TEXT,
    power TEXT,
    reading_before INTEGER NOT NULL,
    current_before TEXT,
    coil_resistance TEXT,
    ratio TEXT,
    safety_critical INTEGER NOT NULL,
    why TEXT NOT NULL,
    way_back TEXT NOT NULL,
    assessed_at INTEGER,
    assessed_by INTEGER,
    assessed_words TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    reversed_at INTEGER,
    reversed_job_id INTEGER,
    reversed_by INTEGER,
    reversed_note TEXT NOT NULL,
    reversal_tried INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_modifications PRIMARY KEY (id),
    CONSTRAINT fk_modifications_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_modifications_unit_id_units FOREIGN KEY(unit_id) REFERENCES units (id),
    CONSTRAINT fk_modifications_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_modifications_trial_id_trials FOREIGN KEY(trial_id) REFERENCES trials (id),
    CONSTRAINT fk_modifications_assessed_by_staff FOREIGN KEY(assessed_by) REFERENCES staff (id),
    CONSTRAINT fk_modifications_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_modifications_reversed_job_id_jobs FOREIGN KEY(reversed_job_id) REFERENCES jobs (id),
    CONSTRAINT fk_modifications_reversed_by_staff FOREIGN KEY(reversed_by) REFERENCES staff (id),
    CONSTRAINT fk_modifications_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_modifications_job_id ON modifications (job_id);
CREATE INDEX ix_modifications_reversed_job_id ON modifications (reversed_job_id);
CREATE INDEX ix_modifications_transport_id ON modifications (transport_id);
CREATE INDEX ix_modifications_trial_id ON modifications (trial_id);
CREATE INDEX ix_modifications_unit_id ON modifications (unit_id);
CREATE TABLE start_up_results (
    job_id INTEGER NOT NULL,
    transport_id INTEGER,
    rung INTEGER NOT NULL,
    seen TEXT NOT NULL,
    tries INTEGER NOT NULL,
    stopped_in INTEGER NOT NULL,
    error_shown TEXT NOT NULL,
    disc TEXT NOT NULL,
    warmth TEXT NOT NULL,
    warm_minutes INTEGER,
    room TEXT,
    moment TEXT NOT NULL,
    trial_id INTEGER,
    trial_side TEXT NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_start_up_results PRIMARY KEY (id),
    CONSTRAINT fk_start_up_results_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_start_up_results_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_start_up_results_trial_id_trials FOREIGN KEY(trial_id) REFERENCES trials (id),
    CONSTRAINT fk_start_up_results_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_start_up_results_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_start_up_results_job_id ON start_up_results (job_id);
CREATE INDEX ix_start_up_results_transport_id ON start_up_results (transport_id);
CREATE INDEX ix_start_up_results_trial_id ON start_up_results (trial_id);
CREATE TABLE readings (
    job_id INTEGER NOT NULL,
    transport_id INTEGER,
    quantity TEXT NOT NULL,
    detail TEXT NOT NULL,
    typed TEXT NOT NULL,
    value REAL,
    digits TEXT,
    unit TEXT NOT NULL,
    bound TEXT NOT NULL,
    uncertainty REAL,
    instrument_id INTEGER,
    instrument_overdue INTEGER NOT NULL,
    moment TEXT NOT NULL,
    trial_id INTEGER,
    trial_side TEXT NOT NULL,
    disc TEXT NOT NULL,
    place TEXT NOT NULL,
    warm_minutes INTEGER,
    room TEXT,
    seconds INTEGER,
    verdict TEXT NOT NULL,
    probability REAL,
    limit_id INTEGER,
    limit_low TEXT,
    limit_high TEXT,
    limit_source TEXT NOT NULL,
    limit_must INTEGER NOT NULL,
    rule TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    struck_at INTEGER,
    struck_by INTEGER,
    struck_reason TEXT NOT NULL,
    version INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_readings PRIMARY KEY (id),
    CONSTRAINT fk_readings_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_readings_transport_id_transports FOREIGN KEY(transport_id) REFERENCES transports (id),
    CONSTRAINT fk_readings_instrument_id_instruments FOREIGN KEY(instrument_id) REFERENCES instruments (id),
    CONSTRAINT fk_readings_trial_id_trials FOREIGN KEY(trial_id) REFERENCES trials (id),
    CONSTRAINT fk_readings_limit_id_limits FOREIGN KEY(limit_id) REFERENCES limits (id),
    CONSTRAINT fk_readings_by_staff FOREIGN KEY("by") REFERENCES staff (id),
    CONSTRAINT fk_readings_struck_by_staff FOREIGN KEY(struck_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_readings_instrument_id ON readings (instrument_id);
CREATE INDEX ix_readings_job_id ON readings (job_id);
CREATE INDEX ix_readings_limit_id ON readings (limit_id);
CREATE INDEX ix_readings_transport_id ON readings (transport_id, quantity, at);
CREATE INDEX ix_readings_trial_id ON readings (trial_id);
CREATE TABLE safety_steps (
    test_id INTEGER NOT NULL,
    position INTEGER NOT NULL,
    step TEXT NOT NULL,
    typed TEXT NOT NULL,
    value TEXT,
    bound TEXT NOT NULL,
    uncertainty REAL,
    limit_low TEXT,
    limit_high TEXT,
    meets INTEGER,
    shop_verdict TEXT NOT NULL,
    probability REAL,
    note TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_safety_steps PRIMARY KEY (id),
    CONSTRAINT fk_safety_steps_test_id_safety_tests FOREIGN KEY(test_id) REFERENCES safety_tests (id)
) STRICT;
CREATE INDEX ix_safety_steps_test_id ON safety_steps (test_id);
CREATE TABLE invoice_lines (
    invoice_id INTEGER NOT NULL,
    position INTEGER NOT NULL,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    unit TEXT NOT NULL,
    price INTEGER NOT NULL,
    price_with_vat INTEGER,
    discount INTEGER NOT NULL,
    discount_reason TEXT NOT NULL,
    net INTEGER NOT NULL,
    vat_rate INTEGER NOT NULL,
    category TEXT NOT NULL,
    vat_reason TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_invoice_lines PRIMARY KEY (id),
    CONSTRAINT fk_invoice_lines_invoice_id_invoices FOREIGN KEY(invoice_id) REFERENCES invoices (id)
) STRICT;
CREATE INDEX ix_invoice_lines_invoice_id ON invoice_lines (invoice_id);
CREATE TABLE payments (
    job_id INTEGER NOT NULL,
    invoice_id INTEGER,
    kind TEXT NOT NULL,
    amount INTEGER NOT NULL,
    currency TEXT NOT NULL,
    means TEXT NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_payments PRIMARY KEY (id),
    CONSTRAINT fk_payments_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_payments_invoice_id_invoices FOREIGN KEY(invoice_id) REFERENCES invoices (id),
    CONSTRAINT fk_payments_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_payments_invoice_id ON payments (invoice_id);
CREATE INDEX ix_payments_job_id ON payments (job_id);
CREATE TABLE papers (
    kind TEXT NOT NULL,
    job_id INTEGER NOT NULL,
    invoice_id INTEGER,
    title TEXT NOT NULL,
    language TEXT NOT NULL,
    facts TEXT NOT NULL,
    issued_at INTEGER NOT NULL,
    issued_by INTEGER NOT NULL,
    sha256 TEXT NOT NULL,
    filed_at INTEGER,
    names_modifications TEXT NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_papers PRIMARY KEY (id),
    CONSTRAINT fk_papers_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_papers_invoice_id_invoices FOREIGN KEY(invoice_id) REFERENCES invoices (id),
    CONSTRAINT fk_papers_issued_by_staff FOREIGN KEY(issued_by) REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_papers_invoice_id ON papers (invoice_id);
CREATE INDEX ix_papers_job_id ON papers (job_id);
CREATE TABLE agreements (
    job_id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    yes INTEGER NOT NULL,
    what TEXT NOT NULL,
    amount INTEGER,
    modification_id INTEGER,
    way TEXT NOT NULL,
    said_by TEXT NOT NULL,
    said_at INTEGER NOT NULL,
    at INTEGER NOT NULL,
    "by" INTEGER NOT NULL,
    id INTEGER NOT NULL,
    CONSTRAINT pk_agreements PRIMARY KEY (id),
    CONSTRAINT fk_agreements_job_id_jobs FOREIGN KEY(job_id) REFERENCES jobs (id),
    CONSTRAINT fk_agreements_modification_id_modifications FOREIGN KEY(modification_id) REFERENCES modifications (id),
    CONSTRAINT fk_agreements_by_staff FOREIGN KEY("by") REFERENCES staff (id)
) STRICT;
CREATE INDEX ix_agreements_job_id ON agreements (job_id);
CREATE INDEX ix_agreements_modification_id ON agreements (modification_id);
CREATE VIRTUAL TABLE find_fts USING fts5(words, tokenize = 'unicode61 remove_diacritics 0', prefix = '1 2 3');
CREATE VIRTUAL TABLE find_tails USING fts5(tails, tokenize = 'trigram');
