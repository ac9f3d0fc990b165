fn main(){ let d=sealfolio::dossier::Dossier::build(std::path::Path::new(&std::env::args().nth(1).unwrap())).map_err(|e|e.message).unwrap();
 println!("{} records {} figures", d.plant.records().all.len(), d.graph.computed.len());
 for c in &d.checked { println!("{} {} {} {}", c.rule.id, c.outcome.looked, c.outcome.things, c.outcome.findings.len()); }
 for f in d.findings().iter().take(80) { println!("{:?} {} {} | {}", f.severity, f.rule, f.message, f.place.as_ref().map_or(String::new(),|p|p.to_string())); }
 let mut n=0; for c in d.graph.computed.values() { if c.worked.is_err() && n<15 { n+=1; println!("{} {}", c.id, c.worked.as_ref().err().unwrap()); } }
}
