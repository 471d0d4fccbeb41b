-- A round asks for what is due: with this it costs what is due, however many charts there are.

create index charts_by_due on charts (due_at) where due_at is not null;
create index notices_by_subject on notices (subject, place);
